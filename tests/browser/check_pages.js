// Opens pages in a browser at the sizes they are read at and tells what is wrong with them:
//
//     node check_pages.js CHROMIUM AXE_CORE OUTPUT_FOLDER PAGE.html ...
//     node check_pages.js --sound CHROMIUM AXE_CORE OUTPUT_FOLDER
//
// The second form checks the checks themselves on a page with planted faults. Screenshots and
// printed pages go to OUTPUT_FOLDER, to be looked at.
'use strict';
const fs = require('fs');
const path = require('path');
const { pathToFileURL } = require('url');
const { Browser } = require('./chromium.js');

// Width and height in CSS pixels. Printed: what is left of the paper between its margins.
const VIEWS = [
    { name: 'phone', width: 360, height: 740 },
    { name: 'desktop', width: 1280, height: 900 },
    { name: 'letter', width: 725, height: 950, isPrint: true, paper: [8.5, 11] },
    { name: 'a4', width: 703, height: 1010, isPrint: true, paper: [8.27, 11.69] },
];
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
const INSIDE = fs.readFileSync(path.join(__dirname, 'inside_page.js'), 'utf8');
const TALLEST_PICTURE = 16000;
const LARGEST_PAPER = 3e6;

const PLANTED = `<!DOCTYPE html><html lang="en"><head><title>Planted</title>
<meta name="viewport" content="width=device-width, initial-scale=1"></head><body><main><h1>P</h1>
<p style="width:2000px">wide</p><p style="color:#ccc">faint words</p>
<div style="overflow:auto;width:100px" tabindex="0"><p style="width:300px">inner</p></div>
<img src="missing.png"><script>console.error('planted')</script>
<svg width="100" height="50"><text x="5" y="20">one</text><text x="8" y="22">two</text>
<text x="90" y="40">leaves the paper</text></svg>
<table><tr><td style="max-width:20px">unbreakable1234567890</td><td>b</td></tr></table>
</main></body></html>`;
const MUST_BE_FOUND = [/scrolls sideways: \d/, /stands out of the page/, /scrolls sideways or is cut/,
    /lies over "two"/, /stands out of its chart/, /wider than its cell/, /asks for .*missing\.png/,
    /says: planted/, /axe: color-contrast/, /axe: image-alt/];

async function look(browser, view, axe) {
    const faults = await browser.evaluate(INSIDE);
    if (view.isPrint)
        return faults; // paper has no keyboard and no reader aloud
    await browser.evaluate(axe);
    const run = `axe.run(document, { runOnly: { type: 'tag', values: ${JSON.stringify(RULES)} },
        resultTypes: ['violations'] }).then((found) => found.violations.map((rule) =>
        'axe: ' + rule.id + ' (' + rule.help + ') at ' + rule.nodes.length + ' places, first ' +
        rule.nodes[0].target.join(' ')))`;
    return faults.concat(await browser.evaluate(run));
}

async function keep(browser, view, stem) {
    const size = await browser.evaluate(
        '({ height: Math.ceil(document.documentElement.scrollHeight) })');
    const picture = await browser.ask('Page.captureScreenshot', { captureBeyondViewport: true,
        clip: { x: 0, y: 0, width: view.width, scale: 1,
            height: Math.min(size.height, TALLEST_PICTURE) } });
    fs.writeFileSync(`${stem}-${view.name}.png`, Buffer.from(picture.data, 'base64'));
    if (!view.isPrint)
        return [];
    const printed = await browser.ask('Page.printToPDF', { paperWidth: view.paper[0],
        paperHeight: view.paper[1], preferCSSPageSize: false, printBackground: false });
    const paper = Buffer.from(printed.data, 'base64');
    fs.writeFileSync(`${stem}-${view.name}.pdf`, paper);
    return paperFaults(paper, await browser.evaluate(
        "document.querySelectorAll('.sheets section.first-level').length"));
}

// A sheet for the tractor is one page; a file to pass on is no larger than mail takes.
function paperFaults(paper, sheets) {
    const pages = (paper.toString('latin1').match(/\/Type\s*\/Page\b/g) || []).length;
    const faults = sheets > 0 && pages !== sheets ? [`${sheets} sheets on ${pages} pages`] : [];
    return paper.length > LARGEST_PAPER ? faults.concat(`a print of ${paper.length} bytes`)
        : faults;
}

// What of one page is wrong at one size.
async function check(browser, axe, address, view, stem) {
    await browser.ask('Emulation.setDeviceMetricsOverride', { width: view.width,
        height: view.height, deviceScaleFactor: 1, mobile: view.name === 'phone' });
    await browser.ask('Emulation.setEmulatedMedia', { media: view.isPrint ? 'print' : 'screen' });
    const seen = await browser.load(address);
    const faults = seen.messages.map((message) => `says: ${message}`);
    for (const url of seen.requests) {
        if (url !== address && !url.startsWith('data:'))
            faults.push(`asks for ${url}`);
    }
    const found = faults.concat(await look(browser, view, axe));
    return stem ? found.concat(await keep(browser, view, stem)) : found;
}

async function checkPages(browser, axe, folder, pages) {
    let failed = 0;
    for (const page of pages) {
        const stem = path.join(folder, path.basename(page, '.html'));
        for (const view of VIEWS) {
            const faults = await check(browser, axe, pathToFileURL(page).href, view, stem);
            for (const fault of faults.slice(0, 12))
                console.error(`${path.basename(page)}, ${view.name}: ${fault}`);
            failed += faults.length > 0 ? 1 : 0;
        }
    }
    console.log(`check-browser: ${pages.length * VIEWS.length - failed} passed, ${failed} failed`);
    return failed === 0;
}

async function checkChecks(browser, axe, folder) {
    const page = path.join(folder, 'planted.html');
    fs.writeFileSync(page, PLANTED);
    const faults = await check(browser, axe, pathToFileURL(page).href, VIEWS[0], null);
    if (paperFaults(Buffer.from('/Type /Page\n/Type /Pages\n/Type /Page\n'), 1).length !== 1 ||
        paperFaults(Buffer.alloc(LARGEST_PAPER + 1), 0).length !== 1)
        faults.length = 0; // the paper was not looked at: nothing counts as found
    const missed = MUST_BE_FOUND.filter((fault) => !faults.some((found) => fault.test(found)));
    for (const fault of missed)
        console.error(`a planted fault was not seen: ${fault}`);
    console.log(`check-browser: ${MUST_BE_FOUND.length - missed.length} planted faults seen, ` +
        `${missed.length} missed`);
    return missed.length === 0;
}

async function main() {
    const isSound = process.argv[2] === '--sound';
    const [program, axePath, folder, ...pages] = process.argv.slice(isSound ? 3 : 2);
    const axe = fs.readFileSync(axePath, 'utf8');
    const browser = new Browser(program);
    try {
        await browser.open();
        const isWell = isSound ? await checkChecks(browser, axe, folder)
            : await checkPages(browser, axe, folder, pages);
        process.exitCode = isWell ? 0 : 1;
    } finally {
        await browser.close();
    }
}

main().catch((error) => {
    console.error(error.stack);
    process.exitCode = 1;
});
