#include "present/page_style.h"

#include <stddef.h>

/* The accent is a spruce green of 7.9 to 1 on white; the quiet grey is 7.2 to 1. */
static const char *const PAGE[] = {
    "*{box-sizing:border-box}",
    "html{-webkit-text-size-adjust:100%;text-size-adjust:100%}",
    "body{margin:0 auto;max-width:60rem;padding:1rem 1rem 3rem;color:#111;background:#fff;",
    "font:1rem/1.45 'Helvetica Neue',Helvetica,Arial,'Liberation Sans',sans-serif;",
    "overflow-wrap:anywhere}",
    "a{color:#1d5c4b}",
    "a:focus-visible,summary:focus-visible{outline:3px solid #1d5c4b;outline-offset:2px}",
    ".skip{position:absolute;left:-99rem}",
    ".skip:focus{left:1rem;background:#fff;padding:.5rem;z-index:1}",
    "h1{font-size:1rem;font-weight:400;color:#4d524f;margin:0 0 1rem}",
    ".headline{font-size:1.75rem;line-height:1.2;font-weight:700;margin:0 0 1rem;",
    "max-width:34em;text-wrap:balance}",
    ".verdict{max-width:46em}",
    "h1+.verdict{font-size:1.3rem;line-height:1.35;max-width:40em}",
    "h2{font-size:1.35rem;line-height:1.25;margin:2.5rem 0 .75rem;padding-top:.6rem;",
    "border-top:2px solid #111}",
    "h3{font-size:1.1rem;margin:1.75rem 0 .5rem}",
    "p{margin:.5rem 0;max-width:46em}",
    ".facts{display:grid;grid-template-columns:repeat(auto-fit,minmax(13rem,1fr));gap:1rem "
    "2rem;",
    "margin:1rem 0;padding:1rem 0;border-top:2px solid #111;border-bottom:1px solid #111}",
    ".facts>div{min-width:0}",
    ".facts dt{font-size:.95rem;font-weight:700;color:#1d5c4b}",
    ".facts dd{margin:0}",
    ".figure{display:block;font-size:2.6rem;line-height:1.1;font-weight:700;",
    "letter-spacing:-.02em;font-variant-numeric:lining-nums tabular-nums}",
    ".figure small{font-size:1.1rem;font-weight:400;letter-spacing:0}",
    ".note{display:block;font-size:.95rem;color:#333}",
    ".foremost{border:2px solid #111;border-left-width:.6rem;padding:.6rem .9rem;margin:1rem "
    "0}",
    ".foremost p{margin:.2rem 0}",
    ".mark{font-weight:700;text-transform:uppercase;letter-spacing:.04em;font-size:.9em}",
    "ul.remarks{list-style:none;margin:.5rem 0;padding:0}",
    "ul.remarks>li{margin:.5rem 0;padding-left:.8rem;border-left:3px solid #b5bab7;",
    "max-width:48em}",
    "ul.remarks>li.caution{border-left:5px double #111}",
    "ul.remarks>li.danger{border-left:8px solid #111}",
    ".dangers h2{margin-top:1rem;border-top:0;padding-top:0}",
    ".dangers ul.remarks>li.danger:first-child{border:2px solid #111;border-left-width:.6rem;",
    "padding:.5rem .8rem}",
    ".sources{font-size:.85em;color:#4d524f}",
    ".sources a{color:inherit}",
    "nav ul{list-style:none;display:flex;flex-wrap:wrap;gap:.2rem "
    "1.2rem;padding:0;margin:1rem ",
    "0}",
    "nav a{display:inline-block;padding:.25rem 0;min-height:1.75rem}",
    "footer{margin-top:3rem;padding-top:.5rem;border-top:1px solid #111;font-size:.9rem;",
    "color:#4d524f}",
};

static const char *const TABLES[] = {
    "table{border-collapse:collapse;margin:.75rem 0 ",
    "1.25rem;min-width:min(100%,36rem);font-size:.88rem;",
    "font-variant-numeric:lining-nums tabular-nums}",
    "caption{text-align:left;font-weight:700;padding:.2rem 0}",
    "th,td{padding:.3em .32em;text-align:left;vertical-align:top;font-weight:400}",
    "th:first-child{padding-left:0}",
    "thead th{font-weight:700;vertical-align:bottom;border-bottom:1.5px solid #111}",
    "tbody tr{border-bottom:1px solid #d4d8d5}",
    ".number{text-align:right;white-space:nowrap}",
    ".number+.words,.number+th:not(.number){padding-left:1.4em}",
    "thead .number{white-space:normal;overflow-wrap:normal}",
    ".unit{display:block;font-weight:400;color:#4d524f}",
    "tr.total{border-top:1.5px solid #111}",
    "tr.total th,tr.total td{font-weight:700}",
    "details{margin:.25rem 0 1.5rem}",
    "summary{cursor:pointer;color:#1d5c4b;padding:.25rem 0;min-height:1.75rem}",
    /* A row becomes a card: its name, then each value with its label. */
    "@media screen and (max-width:40rem){",
    "body{padding:.75rem .75rem 2rem}",
    ".headline{font-size:1.45rem}",
    ".facts{grid-template-columns:1fr;gap:.7rem}",
    ".figure{font-size:2.2rem}",
    "table,tbody,caption,tr{display:block}",
    "thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}",
    "tbody tr{display:flex;flex-wrap:wrap;gap:.1rem .9rem;padding:.45rem 0}",
    "tbody th{flex:0 0 100%;padding:0;font-weight:700}",
    "td,tr>.number+td.words{padding:0;white-space:normal}",
    "td::before{content:attr(data-label) ' ';color:#4d524f;font-size:.85em;margin-right:.2em}",
    "td.number,tbody th.number{text-align:left;font-weight:700;white-space:normal}",
    "td.number::before{font-weight:400}",
    "td.empty{display:none}",
    "}",
};

static const char *const CHARTS[] = {
    "figure{margin:1.25rem 0 .25rem}",
    "figcaption{font-weight:700;font-size:1.05rem;margin-bottom:.4rem;max-width:40em}",
    "svg{display:block;width:100%;height:auto;max-width:58rem}",
    "svg.narrow{display:none}",
    "@media screen and (max-width:40rem){svg.wide{display:none}svg.narrow{display:block}}",
    "svg text{font-size:13px;fill:#111;font-family:inherit}",
    "svg .tick{fill:#4d524f}",
    "svg .value{font-weight:700}",
    "svg .halo,svg .inside{paint-order:stroke;stroke:#fff;stroke-width:4px;",
    "stroke-linejoin:round}",
    "svg .halo{font-weight:700}",
    "svg .grid{stroke:#d4d8d5;stroke-width:1}",
    "svg .axis{stroke:#111;stroke-width:1.2}",
    "svg .area{fill:#cfe0d9;stroke:#1d5c4b;stroke-width:1.5}",
    "svg .band{stroke:#111;stroke-width:.5}",
    "svg .fill-0{fill:#1d5c4b}svg .fill-1{fill:#eceeec}svg .fill-2{fill:#959a97}",
    "svg .fill-3{fill:#262927}svg .fill-4{fill:#c4ccc8}",
    "svg .fill-5,svg .fill-6,svg .fill-7{fill:#fff}",
    "svg .slanted{fill:none;stroke:#333;stroke-width:1.6}",
    "svg .dots{fill:none;stroke:#222;stroke-width:2.4;stroke-linecap:round;",
    "stroke-dasharray:0 8}",
    "svg .level{fill:none;stroke:#1d5c4b;stroke-width:1.4}",
    "svg .bar{fill:#1d5c4b}",
    "svg .cut{fill:none;stroke:#fff;stroke-width:2.5}",
    "svg .line{fill:none;stroke:#1d5c4b;stroke-width:2.5;stroke-linejoin:round}",
    "svg .lead{stroke:#4d524f;stroke-width:1}",
    "svg .dash-1{stroke-dasharray:7 4}",
    "svg .dash-2{stroke-dasharray:2 4}",
    "svg .point{fill:#fff;stroke:#111;stroke-width:2.2}",
    "svg .mark{stroke:#111;stroke-width:2}",
    "svg .limit{stroke:#111;stroke-width:1.6;stroke-dasharray:5 3}",
    "svg .least{stroke:#111;stroke-width:2.4}",
    "svg .most{stroke:#111;stroke-width:2.4;stroke-dasharray:3 2}",
};

static const char *const SHEETS[] = {
    ".sheets h2{font-size:2rem;margin-bottom:.2rem}",
    ".sheets section{font-size:1.15rem}",
    ".sheets table{font-size:1.15rem;width:100%}",
    ".sheets td.number,.sheets th.number{padding-left:.9rem}",
    ".sheets [data-key=load] td,.sheets [data-key=load] tbody th{font-weight:700;",
    "font-size:1.2rem}",
    ".sheets [data-key=record] td,.sheets [data-key=record] tbody th{height:2rem}",
    ".sheets [data-key=record] thead th{border:1px solid #111;padding:.28rem .45rem}",
    ".sheets [data-key=record] td,.sheets [data-key=record] tbody th{border:1px solid #8d918e;",
    "padding:.28rem .45rem}",
    ".sheets section>p{margin:.35rem 0}",
    ".sheets [data-key=record] .unit{display:inline}",
    "@media screen and (max-width:40rem){.sheets [data-key=record]{display:none}",
    ".sheets td.number{padding-left:0}",
    ".sheets h2{font-size:1.6rem}}",
};

static const char *const PRINT[] = {
    "@page{margin:12mm}",
    "@media print{",
    "body{max-width:none;padding:0;font-size:9.5pt}",
    "nav,.skip,summary{display:none}",
    "details::details-content{content-visibility:visible;block-size:auto}",
    "a{color:inherit;text-decoration:none}",
    "h2{break-after:avoid;margin-top:1.4rem}",
    "h3,caption,figcaption{break-after:avoid}",
    "figure,table,tr,.foremost,.facts,li{break-inside:avoid}",
    "thead{display:table-header-group}",
    "table{font-size:8.2pt}",
    "svg{max-width:17.5cm}",
    "p,ul.remarks>li{max-width:56em}",
    ".facts{grid-template-columns:repeat(auto-fit,minmax(9rem,1fr));gap:.6rem 1.2rem}",
    "footer{break-before:avoid;margin-top:1rem}",
    ".headline{font-size:18pt}",
    ".figure{font-size:24pt}",
    ".sheets header,.sheets footer{display:none}",
    ".sheets section.first-level{break-before:page}",
    ".sheets section.first-level:first-child{break-before:auto}",
    ".sheets section,.sheets table{font-size:10.5pt}",
    ".sheets table{margin:.4rem 0 .6rem}",
    ".sheets th,.sheets td{padding-top:.2em;padding-bottom:.2em}",
    ".sheets [data-key=record]{break-inside:avoid}",
    ".sheets [data-key=record] td,.sheets [data-key=record] tbody th{height:1.7rem}",
    ".sheets h2{font-size:22pt;border-top:0;padding-top:0;margin-top:0}",
    ".sheets [data-key=load] td,.sheets [data-key=load] tbody th{font-size:14pt}",
    "}",
};

static void add_lines(Text *out, const char *const *lines, size_t count) {
    for (size_t i = 0; i < count; i++) {
        text_add(out, lines[i]);
        text_add(out, "\n");
    }
}

#define ADD_LINES(out, lines) add_lines((out), (lines), sizeof(lines) / sizeof *(lines))

void page_style(Text *out) {
    ADD_LINES(out, PAGE);
    ADD_LINES(out, TABLES);
    ADD_LINES(out, CHARTS);
    ADD_LINES(out, SHEETS);
    ADD_LINES(out, PRINT);
}
