/** The traveller as one file for a phone: no script, nothing loaded from anywhere, boxes that can be ticked. */
import { exportMark } from '../../../files/own-mark.js';
import type { Block, Cell, Column, Section, Traveller } from './layout/block.js';
import type { Fill, Figure, Mark } from './layout/mark.js';
import { widthOf } from './layout/measure-text.js';

/** The file's text; the same traveller gives the same bytes. */
export const htmlOf = (traveller: Traveller): string =>
  [
    '<!doctype html>',
    `<!-- ${exportMark(traveller.tub)} -->`,
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">`,
    `<title>${escapeText(`${traveller.tub}: ${traveller.title.toLowerCase()}`)}</title>`,
    `<style>${STYLE}</style>`,
    '</head>',
    '<body>',
    `<nav aria-label="Contents"><ol>${traveller.sections.map(({ key, title }) => `<li><a href="#${key}">${escapeText(title)}</a></li>`).join('')}</ol></nav>`,
    '<main>',
    ...traveller.sections.map(sectionHtml),
    '</main>',
    '</body>',
    '</html>',
    '',
  ].join('\n');

/** Large type and large boxes: read at arm's length, ticked with a gloved finger. */
const STYLE = `
:root{color-scheme:light}
body{margin:0;font:18px/1.4 system-ui,sans-serif;color:#000;background:#fff}
nav,main{max-width:60rem;margin:0 auto;padding:0 1rem}
nav ol{padding-left:1.6rem}
nav a{color:#000;display:inline-block;padding:.35rem 0}
section{border-top:.3rem solid #000;padding:.5rem 0 1.5rem}
h1,h2{font-size:1.6rem;margin:.4rem 0 .8rem}
h1 b,h2 b{background:#000;color:#fff;padding:0 .5rem;margin-right:.6rem}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%}
th,td{padding:.45rem .5rem;border-bottom:1px solid #000;text-align:left;vertical-align:middle}
th{border-bottom:2px solid #000}
.right{text-align:right}.middle{text-align:center}
dl{display:grid;grid-template-columns:minmax(8rem,2fr) 3fr;gap:.3rem 1rem}
dd{margin:0;font-weight:700}
figure{margin:1rem 0}
svg{max-width:100%;height:auto}
td svg{max-width:none}
input[type=checkbox]{width:2rem;height:2rem}
input[type=text]{width:7rem;font:inherit;border:0;border-bottom:2px solid #000}
.caution{border:2px solid #000;border-left-width:1rem;padding:.5rem .8rem;margin:.6rem 0}
@media (max-width:42rem){
thead{display:none}
table,tbody,tr,td{display:block}
tr{border:2px solid #000;margin:.7rem 0}
td,.right,.middle{display:flex;justify-content:space-between;gap:1rem;text-align:right;align-items:center}
td::before{content:attr(data-head);font-weight:700;text-align:left}
td:last-child{border-bottom:0}
td svg{max-width:60%}
}
@media print{nav{display:none}section{break-before:page}}
`;

const sectionHtml = (section: Section, index: number): string => {
  const level = index === 0 ? 1 : 2;
  return [
    `<section id="${section.key}">`,
    `<h${level}><b>${index + 1}</b>${escapeText(section.title)}</h${level}>`,
    ...section.blocks.map((block) => blockHtml(block, level + 1)),
    '</section>',
  ].join('\n');
};

/** `level`: of the headings in it. */
const blockHtml = (block: Block, level: number): string => {
  switch (block.kind) {
    case 'text':
      return block.weight === 'bold'
        ? `<h${level}>${escapeText(block.text)}</h${level}>`
        : `<p>${escapeText(block.text)}</p>`;
    case 'facts':
      return `<dl>${block.rows.map(({ name, value }) => `<dt>${escapeText(name)}</dt><dd>${escapeText(value)}</dd>`).join('')}</dl>`;
    case 'cautions':
      return block.items
        .map(({ title, text }) => `<p class="caution"><strong>${escapeText(title)}.</strong> ${escapeText(text)}</p>`)
        .join('\n');
    case 'figure': {
      const caption = block.caption === undefined ? '' : `<figcaption>${escapeText(block.caption)}</figcaption>`;
      return `<figure>${svgHtml(block.figure)}${caption}</figure>`;
    }
    case 'table':
      return tableHtml(block);
    case 'contents':
      return '';
  }
};

const tableHtml = ({ columns, rows }: Extract<Block, { kind: 'table' }>): string => {
  const heads = columns.map((column) => `<th scope="col"${classOf(column)}>${escapeText(column.head)}</th>`).join('');
  const body = rows.map((row) => {
    const name = nameOf(row);
    return `<tr>${row.map((cell, i) => `<td${classOf(columns[i])} data-head="${escapeText(columns[i].head)}">${cellHtml(cell, `${columns[i].head}: ${name}`)}</td>`).join('')}</tr>`;
  });
  return `<div class="wide"><table><thead><tr>${heads}</tr></thead><tbody>${body.join('\n')}</tbody></table></div>`;
};

/** What a box in the row is for: the first words that are no number, else the first words. */
const nameOf = (row: readonly Cell[]): string => {
  const told = row.flatMap((cell) => (typeof cell === 'string' ? [cell] : 'text' in cell ? [cell.text] : []));
  return told.find((text) => /\p{L}{2}/u.test(text)) ?? told[0] ?? '';
};

const classOf = ({ align }: Column): string => (align === 'left' ? '' : ` class="${align}"`);

const cellHtml = (cell: Cell, label: string): string => {
  if (typeof cell === 'string') return escapeText(cell);
  if ('text' in cell) return `<a href="#${cell.to}">${escapeText(cell.text)}</a>`;
  if ('figure' in cell) return svgHtml(cell.figure);
  const kind = cell.fill === 'box' ? 'checkbox' : 'text';
  return `<input type="${kind}" aria-label="${escapeText(label)}">`;
};

const BORDER = 1;

const svgHtml = ({ size, marks, text }: Figure): string => {
  const [width, height] = [size[0] + 2 * BORDER, size[1] + 2 * BORDER].map(number);
  return `<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-label="${escapeText(text)}" width="${width}mm" height="${height}mm" viewBox="${-BORDER} ${-BORDER} ${width} ${height}" font-family="Arial,Helvetica,sans-serif">${marks.map(markSvg).join('')}</svg>`;
};

const FILLS: Readonly<Record<Fill, string>> = { white: '#fff', light: '#ddd', black: '#000' };
const DASHES = { dashes: '2.2 1.2', chain: '4 1 .8 1' } as const;

const markSvg = (mark: Mark): string => {
  if (mark.kind === 'text') {
    const {
      at: [x, y],
      size,
      weight,
      align,
      upright,
      color,
    } = mark;
    const anchor = { left: '', middle: ' text-anchor="middle"', right: ' text-anchor="end"' }[align];
    const turn = upright ? ` transform="rotate(-90 ${number(x)} ${number(y)})"` : '';
    const paint = `${weight === 'bold' ? ' font-weight="700"' : ''}${color === 'white' ? ' fill="#fff"' : ''}`;
    // As wide as it was measured, whatever face the reader has.
    const fitted =
      mark.text === ''
        ? ''
        : ` textLength="${number(widthOf(mark.text, size, weight))}" lengthAdjust="spacingAndGlyphs"`;
    return `<text x="${number(x)}" y="${number(y)}" font-size="${number(size)}"${anchor}${fitted}${paint}${turn}>${escapeText(mark.text)}</text>`;
  }
  const stroke =
    mark.width > 0
      ? `stroke="${mark.kind === 'line' && mark.white ? '#fff' : '#000'}" stroke-width="${number(mark.width)}"`
      : 'stroke="none"';
  const paint = `fill="${mark.fill ? FILLS[mark.fill] : 'none'}" ${stroke}`;
  if (mark.kind === 'circle')
    return `<circle cx="${number(mark.center[0])}" cy="${number(mark.center[1])}" r="${number(mark.radius)}" ${paint}/>`;
  const path = mark.points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${number(x)} ${number(y)}`).join('');
  const dash = mark.dash ? ` stroke-dasharray="${DASHES[mark.dash]}"` : '';
  return `<path d="${path}${mark.closed ? 'Z' : ''}" ${paint}${dash}/>`;
};

const number = (value: number): string => String(Math.round(value * 100) / 100 + 0);

const escapeText = (text: string): string =>
  text
    .replace(/[\u0000-\u001f\u007f-\u009f]/g, ' ')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/"/g, '&quot;');
