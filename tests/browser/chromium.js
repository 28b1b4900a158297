// A browser without a window, driven over its pipe: one page, the messages it sends, nothing
// installed besides.
'use strict';
const { spawn } = require('child_process');
const fs = require('fs');
const os = require('os');
const path = require('path');

const ARGUMENTS = ['--headless=new', '--no-sandbox', '--disable-gpu', '--hide-scrollbars',
    '--disable-dev-shm-usage', '--no-first-run', '--disable-extensions',
    '--disable-background-networking', '--remote-debugging-pipe', 'about:blank'];
const ANSWER_MILLISECONDS = 60000;

class Browser {
    constructor(program) {
        this.profile = fs.mkdtempSync(path.join(os.tmpdir(), 'winterstack-browser-'));
        this.process = spawn(program, [`--user-data-dir=${this.profile}`, ...ARGUMENTS],
            { stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'] });
        this.waiting = new Map();
        this.listeners = [];
        this.next = 1;
        this.rest = '';
        this.process.stdio[4].on('data', (bytes) => this.take(bytes.toString('utf8')));
    }

    take(bytes) {
        const parts = (this.rest + bytes).split('\0');
        this.rest = parts.pop();
        for (const part of parts) {
            const message = JSON.parse(part);
            const wait = this.waiting.get(message.id);
            if (wait) {
                this.waiting.delete(message.id);
                wait(message);
            } else
                this.listeners.forEach((listener) => listener(message));
        }
    }

    ask(method, parameters = {}, session = this.session) {
        const id = this.next++;
        return new Promise((done, failed) => {
            const timer = setTimeout(() => failed(new Error(`${method}: no answer`)),
                ANSWER_MILLISECONDS);
            this.waiting.set(id, (message) => {
                clearTimeout(timer);
                if (message.error)
                    failed(new Error(`${method}: ${message.error.message}`));
                else
                    done(message.result);
            });
            const message = { id, method, params: parameters };
            if (session)
                message.sessionId = session;
            this.process.stdio[3].write(JSON.stringify(message) + '\0');
        });
    }

    async open() {
        const { targetId } = await this.ask('Target.createTarget', { url: 'about:blank' }, null);
        const { sessionId } = await this.ask('Target.attachToTarget',
            { targetId, flatten: true }, null);
        this.session = sessionId;
        for (const domain of ['Page', 'Runtime', 'Log', 'Network'])
            await this.ask(`${domain}.enable`);
    }

    // Loads an address; returns what the page said and asked for on the way.
    async load(address) {
        const seen = { messages: [], requests: [] };
        let loaded;
        const ready = new Promise((done) => { loaded = done; });
        const listener = (message) => {
            const of = message.params;
            if (message.method === 'Page.loadEventFired')
                loaded();
            else if (message.method === 'Runtime.consoleAPICalled')
                seen.messages.push(of.args.map((value) => value.value).join(' '));
            else if (message.method === 'Runtime.exceptionThrown')
                seen.messages.push(of.exceptionDetails.text);
            else if (message.method === 'Log.entryAdded')
                seen.messages.push(of.entry.text);
            else if (message.method === 'Network.requestWillBeSent')
                seen.requests.push(of.request.url);
        };
        this.listeners.push(listener);
        await this.ask('Page.navigate', { url: address });
        await ready;
        await this.evaluate('new Promise((done) => setTimeout(done, 50))');
        this.listeners.splice(this.listeners.indexOf(listener), 1);
        return seen;
    }

    async evaluate(expression) {
        const answer = await this.ask('Runtime.evaluate',
            { expression, awaitPromise: true, returnByValue: true });
        if (answer.exceptionDetails)
            throw new Error(answer.exceptionDetails.exception.description);
        return answer.result.value;
    }

    async close() {
        await this.ask('Browser.close', {}, null).catch(() => {});
        await new Promise((done) => {
            this.process.on('exit', done);
            setTimeout(done, 3000);
        });
        this.process.kill();
        fs.rmSync(this.profile, { recursive: true, force: true, maxRetries: 5 });
    }
}

module.exports = { Browser };
