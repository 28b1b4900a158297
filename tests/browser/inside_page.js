// Run inside a page: what of it cannot be read as it lies there. Returns a list of sentences.
(() => {
    const ROOM = 1; // a pixel of rounding
    const faults = [];
    const page = document.documentElement;
    const say = (what, element) => {
        const words = (element.textContent || '').trim().replace(/\s+/g, ' ').slice(0, 60);
        faults.push(`${what}: <${element.tagName.toLowerCase()}> ${words}`);
    };
    const isShown = (element) => element.getClientRects().length > 0 &&
        getComputedStyle(element).visibility !== 'hidden';

    if (page.scrollWidth > page.clientWidth + ROOM)
        faults.push(`the page scrolls sideways: ${page.scrollWidth} in ${page.clientWidth}`);

    for (const element of document.body.querySelectorAll('*')) {
        if (element.closest('svg') || element.closest('.skip') || element.closest('thead') ||
            !isShown(element))
            continue;
        const box = element.getBoundingClientRect();
        if (box.right > page.clientWidth + ROOM)
            say('stands out of the page', element);
        const style = getComputedStyle(element);
        if (element.scrollWidth > element.clientWidth + ROOM && style.overflowX !== 'visible' &&
            element.clientWidth > 1)
            say('scrolls sideways or is cut', element);
    }

    const meet = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > ROOM &&
        Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > ROOM;
    for (const drawing of document.querySelectorAll('svg')) {
        if (!isShown(drawing))
            continue;
        const paper = drawing.getBoundingClientRect();
        const texts = [...drawing.querySelectorAll('text')];
        const boxes = texts.map((text) => text.getBoundingClientRect());
        texts.forEach((text, at) => {
            const box = boxes[at];
            if (box.left < paper.left - ROOM || box.right > paper.right + ROOM ||
                box.top < paper.top - ROOM || box.bottom > paper.bottom + ROOM)
                say('stands out of its chart', text);
            for (let other = at + 1; other < texts.length; other++) {
                if (meet(box, boxes[other]))
                    say(`lies over "${texts[other].textContent}" in a chart`, text);
            }
        });
    }

    // Numbers in cells of a table must not run into each other.
    for (const row of document.querySelectorAll('tr')) {
        const cells = [...row.children].filter(isShown);
        cells.forEach((cell, at) => {
            if (cell.scrollWidth > cell.clientWidth + ROOM && cell.clientWidth > 1)
                say('is wider than its cell', cell);
            if (at > 0 && meet(cell.getBoundingClientRect(),
                cells[at - 1].getBoundingClientRect()))
                say('lies over the cell before it', cell);
        });
    }
    return faults;
})();
