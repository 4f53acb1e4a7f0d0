import { setAttributes, svg } from '../dom.js';

const CARRIED = [
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linejoin',
  'stroke-linecap',
  'stroke-opacity',
  'font-size',
  'font-family',
  'font-weight',
  'text-anchor',
  'opacity',
  'vector-effect',
  'display',
  'paint-order',
];

/** A copy of a drawing that looks the same outside the preview: every style it takes from here becomes its own. */
export const drawingOf = (source: SVGSVGElement): SVGSVGElement => {
  const copy = source.cloneNode(true) as SVGSVGElement;
  const originals = [source, ...source.querySelectorAll<SVGElement>('*')];
  const copies = [copy, ...copy.querySelectorAll<SVGElement>('*')];
  originals.forEach((original, i) => {
    const style = getComputedStyle(original);
    const target = copies[i];
    for (const name of CARRIED) {
      const value = style.getPropertyValue(name);
      if (value && value !== 'none' && value !== 'normal') target.setAttribute(name, value);
      else if (name === 'fill' || name === 'stroke' || name === 'display') target.setAttribute(name, value || 'none');
    }
    for (const name of ['class', 'style', 'data-key', 'tabindex', 'role', 'aria-label']) target.removeAttribute(name);
  });
  for (const hidden of copy.querySelectorAll('[display="none"]')) hidden.remove();
  setAttributes(copy, { xmlns: 'http://www.w3.org/2000/svg', width: source.clientWidth, height: source.clientHeight });
  return copy;
};

/** Drawings that carry their own styles, placed as they stand on the screen. */
export const sideBySide = (
  pictures: readonly { readonly picture: SVGSVGElement; readonly at: DOMRect }[],
): SVGSVGElement => {
  const left = Math.min(...pictures.map(({ at }) => at.left));
  const top = Math.min(...pictures.map(({ at }) => at.top));
  const width = Math.max(...pictures.map(({ at }) => at.right)) - left;
  const height = Math.max(...pictures.map(({ at }) => at.bottom)) - top;
  for (const { picture, at } of pictures) setAttributes(picture, { x: at.left - left, y: at.top - top });
  return svg(
    'svg',
    { xmlns: 'http://www.w3.org/2000/svg', viewBox: `0 0 ${width} ${height}`, width, height },
    ...pictures.map(({ picture }) => picture),
  );
};

/** The drawing as a file, with the paper behind it. */
export const svgText = (drawing: SVGSVGElement, paper: string): string => {
  const [x, y, width, height] = (drawing.getAttribute('viewBox') ?? '0 0 100 100').split(' ');
  const sheet = document.createElementNS('http://www.w3.org/2000/svg', 'rect');
  setAttributes(sheet, { x, y, width, height, fill: paper });
  drawing.prepend(sheet);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${new XMLSerializer().serializeToString(drawing)}\n`;
};

/** A drawing that says its own size, at twice that in pixels, as the bytes of a PNG; paper also where nothing is drawn. */
export const pngOfSvg = async (text: string, paper: string): Promise<string> => {
  const image = new Image();
  image.src = `data:image/svg+xml;base64,${toBase64(text)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [image.naturalWidth * 2, image.naturalHeight * 2];
  const context = canvas.getContext('2d');
  if (context) {
    context.fillStyle = paper;
    context.fillRect(0, 0, canvas.width, canvas.height);
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
  }
  return canvas.toDataURL('image/png').split(',')[1];
};

/** UTF-8 text as base64. */
export const toBase64 = (text: string): string => {
  const bytes = new TextEncoder().encode(text);
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary);
};
