import { figureCss } from '../look/figure-css.js';

const serif = "Charter,'Bitstream Charter','Iowan Old Style','Palatino Linotype',Palatino,Georgia,'DejaVu Serif',serif";
const sans = "'Helvetica Neue',Arial,'Liberation Sans',sans-serif";

/** Style sheet of a report: ink on paper, on a screen, a phone and in print. */
export const pageCss = (): string => `${figureCss(':root')}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:var(--pv-paper);color:var(--pv-ink);font:17px/1.55 ${serif}}
main{max-width:792px;margin:0 auto;padding:28px 16px 64px}
h1{font-size:1.06rem;font-weight:600;letter-spacing:.01em;margin:0 0 .5rem;color:var(--pv-soft);overflow-wrap:anywhere}
.verdict{font-size:1.72rem;line-height:1.28;margin:0 0 1rem;text-wrap:pretty;overflow-wrap:anywhere}
h2{font-size:1.32rem;line-height:1.25;font-weight:600;margin:3rem 0 .5rem;padding-top:1.1rem;border-top:1px solid var(--pv-rule);overflow-wrap:anywhere}
h3{font-size:1.06rem;font-weight:600;margin:2rem 0 .4rem;overflow-wrap:anywhere}
p,li{overflow-wrap:anywhere}
p{margin:.4rem 0 .8rem;max-width:40rem}
ul{margin:.4rem 0 .8rem;padding-left:1.2rem;max-width:40rem}
li{margin:.35rem 0}
a{color:inherit}
nav{font:14px/1.6 ${sans};margin:1.2rem 0 0;color:var(--pv-soft)}
nav ul{list-style:none;padding:0;margin:0;max-width:none;display:flex;flex-wrap:wrap;gap:2px 16px}
nav li{margin:0}
figure{margin:1.4rem 0}
figcaption,caption{font:600 15px/1.35 ${sans};text-align:left;padding:0 0 6px;color:var(--pv-ink);overflow-wrap:anywhere}
svg{display:block;max-width:100%;height:auto}
.narrow{display:none}
.read{font:14px/1.4 ${sans};min-height:2.8em;margin:4px 0 0;color:var(--pv-soft);max-width:none}
.table{margin:1.4rem 0}
.scroll{overflow-x:auto}
.scroll:focus-visible,a:focus-visible,svg:focus-visible{outline:2px solid var(--pv-ink);outline-offset:2px}
table{border-collapse:collapse;font:14px/1.4 ${sans};font-variant-numeric:tabular-nums;min-width:100%}
th,td{text-align:left;vertical-align:baseline;padding:5px 14px 5px 0;border-bottom:1px solid var(--pv-rule)}
th:last-child,td:last-child{padding-right:0}
thead th{font-weight:400;color:var(--pv-soft);border-bottom-color:var(--pv-line);vertical-align:bottom}
tbody th{font-weight:400;overflow-wrap:break-word;min-width:5.5em}
td:not(.n){min-width:6em}
td:last-child:not(.n){min-width:12em}
.n{text-align:right;white-space:nowrap}
.strong th,.strong td{font-weight:600}
.note,.small{font:14px/1.5 ${sans};color:var(--pv-soft)}
.pair{display:grid;grid-template-columns:1fr 1fr;gap:0 32px}
.pair>*{min-width:0}
.touch{font:600 13px/1.4 ${sans};white-space:nowrap}
.who{border-left:3px solid var(--pv-ink);padding-left:12px}
@media (max-width:640px){
body{font-size:16px}
caption{position:sticky;left:0;width:calc(100vw - 28px)}
th,td{padding-right:11px}
tbody th{min-width:4.6em}
td:not(.n){min-width:4.2em}
td:last-child:not(.n){min-width:10em}
main{padding:20px 14px 48px}
.verdict{font-size:1.38rem}
.wide{display:none}.narrow{display:block}
.pair{display:block}
}
@media print{
@page{margin:15mm 14mm}
body{font-size:10.5pt}
main{max-width:none;padding:0}
.wide{display:block}.narrow,.read,nav{display:none}
h2,h3,h2+p,figcaption,caption{break-after:avoid}
.condition{break-before:page}
thead{display:table-header-group;break-inside:avoid}
figure,tr,li,.keep{break-inside:avoid}
.scroll{overflow:visible}
table{font-size:8.5pt}
th,td{padding-top:3px;padding-bottom:3px}
.pair{gap:0 24px}
}`;
