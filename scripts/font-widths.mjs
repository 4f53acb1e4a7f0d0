/**
 * Writes the widths of the type that papers are set in, as the analysis needs them to break lines:
 * src/analysis/export/traveller/layout/font-widths.ts, from the files in src/language/hosts/fonts. Run it when those change.
 */
import { openSync } from 'fontkit';
import { writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const fontAt = (name) => openSync(join(root, 'src/language/hosts/fonts', name));

const thousandths = (font, code) => Math.round((font.glyphForCodePoint(code).advanceWidth * 1000) / font.unitsPerEm);

/** `start:width,width` for each run of codes that the font has; joined by `;`. */
const runsOf = (font, codes) => {
  const runs = [];
  let last;
  for (const code of codes) {
    const width = thousandths(font, code);
    if (code - 1 === last) runs.at(-1).widths.push(width);
    else runs.push({ start: code, widths: [width] });
    last = code;
  }
  return runs.map(({ start, widths }) => `${start.toString(16)}:${widths.join(',')}`).join(';');
};

const LINE = 112;
const literal = (text) => {
  const lines = text.match(new RegExp(`.{1,${LINE}}`, 'g'));
  return lines.map((line) => `  '${line}'`).join(' +\n');
};

const [plain, bold, symbols] = [
  'SourceSans3-Regular.ttf',
  'SourceSans3-Bold.ttf',
  'noto-sans-math-latin-400-normal.woff',
].map(fontAt);
const printed = (font) => [...font.characterSet].filter((code) => code >= 32 && code !== 127).sort((a, b) => a - b);
const both = printed(plain).filter((code) => bold.hasGlyphForCodePoint(code));
/** Punctuation, arrows, technical signs and shapes; letters of formulae are left out. */
const rest = printed(symbols).filter((code) => code >= 0x2000 && code < 0x2c00 && !both.includes(code));

writeFileSync(
  join(root, 'src/analysis/export/traveller/layout/font-widths.ts'),
  `/**
 * Widths of the type that papers are set in, in thousandths of its size: runs of codes, the first in hexadecimal, with the
 * width of each. Source: the embedded fonts, read by scripts/font-widths.mjs; their licences stand beside them.
 */

/** Text, upright. */
export const plainWidths: string =
${literal(runsOf(plain, both))};

/** Text, bold. */
export const boldWidths: string =
${literal(runsOf(bold, both))};

/** Signs that the text face lacks; one weight. */
export const symbolWidths: string =
${literal(runsOf(symbols, rest))};
`,
);
