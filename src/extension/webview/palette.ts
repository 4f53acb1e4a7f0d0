/**
 * Colours of the preview, all taken from the editor's theme. Colour is never alone: bends differ by dash and letter,
 * slopes carry their number, pools a hatch and a label.
 */
export interface Palette {
  readonly paper: string;
  readonly ink: string;
  readonly faint: string;
  readonly bendUp: string;
  readonly bendDown: string;
  readonly mark: string;
  readonly water: string;
  readonly warn: string;
  readonly error: string;
  readonly info: string;
  readonly chosen: string;
  readonly wetMetal: string;
  readonly dryMetal: string;
  readonly bentMetal: string;
  readonly cut: string;
  readonly seam: string;
  /** Of water, from the shallowest to the deepest. */
  readonly depths: readonly string[];
  /** From level (which wants a look) to walls. */
  readonly slopes: readonly string[];
  readonly font: string;
  readonly highContrast: boolean;
}

/** Reads the palette off the page, after each change of theme. */
export const readPalette = (): Palette => {
  const style = getComputedStyle(document.body);
  const read = (name: string, fallback: string): string => style.getPropertyValue(name).trim() || fallback;
  const dark = isDark();
  const highContrast =
    document.body.classList.contains('vscode-high-contrast') ||
    document.body.classList.contains('vscode-high-contrast-light');
  const paper = read('--vscode-editor-background', dark ? '#1f1f1f' : '#ffffff');
  const ink = read('--vscode-editor-foreground', dark ? '#d4d4d4' : '#303030');
  const water = read('--vscode-charts-blue', dark ? '#4aa3df' : '#1a6fb0');
  const warn = read('--vscode-editorWarning-foreground', dark ? '#e2b93d' : '#a86f00');
  const green = read('--vscode-charts-green', dark ? '#89d185' : '#388a34');
  const steel = dark ? '#9aa7b0' : '#b9c3ca';
  const legible = (color: string): string => readable(color, ink, paper);
  return {
    paper,
    ink,
    faint: legible(mix(ink, paper, 0.4)),
    bendUp: legible(read('--vscode-charts-blue', dark ? '#5fb0ff' : '#0a62b8')),
    bendDown: legible(read('--vscode-charts-orange', dark ? '#e39b4a' : '#a85400')),
    mark: legible(read('--vscode-charts-purple', dark ? '#b48ee0' : '#6b3fa0')),
    water,
    warn,
    error: read('--vscode-editorError-foreground', dark ? '#f14c4c' : '#c72e2e'),
    info: read('--vscode-editorInfo-foreground', dark ? '#3794ff' : '#1a6fb0'),
    chosen: read('--vscode-focusBorder', '#0a84ff'),
    wetMetal: highContrast ? mix(water, paper, 0.45) : mix(water, steel, 0.72),
    dryMetal: highContrast ? mix(ink, paper, 0.6) : steel,
    bentMetal: mix(ink, steel, 0.8),
    seam: mix(read('--vscode-charts-purple', dark ? '#b48ee0' : '#6b3fa0'), steel, 0.25),
    depths: [0, 1, 2, 3, 4].map((band) =>
      dark
        ? mix(mix(water, '#ffffff', 0.5), mix(water, '#000000', 0.55), band / 4)
        : mix(mix(water, '#ffffff', 0.6), mix(water, '#000000', 0.5), band / 4),
    ),
    cut: read('--vscode-charts-orange', '#d18616'),
    slopes: [
      mix(warn, paper, 0.25),
      mix(warn, paper, 0.6),
      mix(green, paper, 0.55),
      mix(green, paper, 0.78),
      mix(steel, paper, 0.35),
    ],
    font: read('--vscode-font-family', 'sans-serif'),
    highContrast,
  };
};

/** Hands the inks to the style sheet, so that words and lines drawn by it can be read in every theme. */
export const setInks = (): void => {
  const { faint, bendUp, bendDown, mark, wetMetal, dryMetal } = readPalette();
  const inks = { faint, up: bendUp, down: bendDown, pen: mark, wet: wetMetal, dry: dryMetal };
  for (const [name, color] of Object.entries(inks)) document.body.style.setProperty(`--${name}`, color);
};

/** What words need over their paper. Source: WCAG 2.2, success criterion 1.4.3. */
const READABLE = 4.5;

/** The colour, with as much ink in it as words of that colour need. */
export const readable = (color: string, ink: string, paper: string): string => {
  for (let share = 0; share < 1; share += 0.1) {
    const mixed = mix(color, ink, share);
    if (contrastOf(mixed, paper) >= READABLE + 0.1) return mixed;
  }
  return ink;
};

/** 1..21. Source: WCAG 2.2, definitions of contrast ratio and relative luminance. */
export const contrastOf = (a: string, b: string): number => {
  const [dark, light] = [luminanceOf(a), luminanceOf(b)].sort((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
};

const luminanceOf = (color: string): number => {
  const [r, g, b] = rgbOf(color).map((channel) => {
    const share = channel / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};

export const isDark = (): boolean =>
  document.body.classList.contains('vscode-dark') ||
  (document.body.classList.contains('vscode-high-contrast') &&
    !document.body.classList.contains('vscode-high-contrast-light'));

/** Calls back when the editor's theme changes. */
export const onThemeChange = (act: () => void): void => {
  new MutationObserver(act).observe(document.body, {
    attributes: true,
    attributeFilter: ['class', 'data-vscode-theme-id'],
  });
};

/** `share` of the second colour in the first, 0..1. */
export const mix = (a: string, b: string, share: number): string => {
  const [p, q] = [rgbOf(a), rgbOf(b)];
  return `#${[0, 1, 2].map((i) => toHex(p[i] * (1 - share) + q[i] * share)).join('')}`;
};

const toHex = (value: number): string =>
  Math.round(Math.min(255, Math.max(0, value)))
    .toString(16)
    .padStart(2, '0');

const known = new Map<string, readonly [number, number, number]>();

/** Any CSS colour as 0..255 channels; translucent ones lose their alpha. */
export const rgbOf = (color: string): readonly [number, number, number] => {
  const seen = known.get(color);
  if (seen) return seen;
  const hex = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(color);
  if (hex) return [parseInt(hex[1], 16), parseInt(hex[2], 16), parseInt(hex[3], 16)];
  const context = document.createElement('canvas').getContext('2d');
  let rgb: readonly [number, number, number] = [128, 128, 128];
  if (context) {
    context.fillStyle = color;
    context.fillRect(0, 0, 1, 1);
    const [r, g, b, a] = context.getImageData(0, 0, 1, 1).data;
    rgb = a === 0 ? rgb : [r, g, b];
  }
  known.set(color, rgb);
  return rgb;
};
