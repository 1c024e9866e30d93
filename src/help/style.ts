/**
 * For a phone beside the kettle first, then for a desktop screen, and for print. Both colour schemes have a contrast of
 * at least 4.5.
 */
export const helpStyle = `:root{color-scheme:light dark;--ink:#1b1b1b;--soft:#555;--paper:#fff;--line:#c8c8c8;--way:#0c584f;--warn:#8a5200;--tint:#f3f5f4}
@media (prefers-color-scheme:dark){:root{--ink:#eee;--soft:#b5b5b5;--paper:#1c1d1d;--line:#4a4d4c;--way:#86bdb5;--warn:#ffc46b;--tint:#272a29}}
*{box-sizing:border-box}
body{margin:0 auto;max-width:46rem;padding:0 1rem 3rem;background:var(--paper);color:var(--ink);font:1rem/1.5 system-ui,sans-serif;overflow-wrap:break-word}
nav{border-bottom:1px solid var(--line)}
nav ul{display:flex;flex-wrap:wrap;gap:0 1rem;font-size:.95rem;list-style:none;margin:0;padding:.25rem 0}
nav li{margin:0}
nav a,nav span{display:inline-block;padding:.3rem 0}
h1{font-size:1.6rem;line-height:1.25;margin:1.25rem 0 .5rem;overflow-wrap:anywhere}
h2{font-size:1.15rem;line-height:1.3;margin:2rem 0 .5rem}
p{margin:.5rem 0}
a{color:var(--way)}
ul,ol{padding-left:1.4rem;margin:.5rem 0}
li{margin:.4rem 0}
code{font-family:ui-monospace,Consolas,monospace;font-size:.92em}
th code{overflow-wrap:normal}
small{color:var(--soft);font-size:.88em}
.question{font-size:1.15rem;font-weight:600}
.formula{background:var(--tint);padding:.5rem .75rem;border-left:.25rem solid var(--way)}
.result{font-size:1.15rem}
.result data{font-weight:700}
.caution{border:1px solid var(--warn);border-left-width:.35rem;padding:.5rem .75rem}
.errors{list-style:none;padding:0}
.errors li{border-top:1px solid var(--line);padding:.6rem 0;margin:0}
.wide{overflow-x:auto;margin:.75rem 0}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
th,td{text-align:left;vertical-align:top;padding:.35rem .75rem .35rem 0;border-top:1px solid var(--line);font-weight:400}
thead th{border-top:0;color:var(--soft)}
td data{white-space:nowrap}
:focus-visible{outline:2px solid var(--way);outline-offset:2px}
@media print{
:root{color-scheme:light;--ink:#000;--soft:#000;--paper:#fff;--line:#888;--way:#000;--warn:#000;--tint:#fff}
body{max-width:none;padding:0;font-size:10.5pt}
nav{display:none}
a{text-decoration:none}
.wide{overflow:visible}
h2{break-after:avoid}
li,tr,.formula,.caution{break-inside:avoid}
}
`;
