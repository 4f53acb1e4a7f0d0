import type { ViewEvents } from '../view.js';
import type { PanZoom } from './pan-zoom.js';

/** Pixels that an arrow key moves; times that a key goes nearer. */
const PAN = 60;
const NEARER = 1.25;

/** Clicks pick what lies under the pointer; keys move the window over the drawing. */
export const listenTo = (
  picture: SVGSVGElement,
  window: PanZoom,
  events: Pick<ViewEvents, 'picked' | 'cleared'>,
  fit: () => void,
): void => {
  const pick = (event: MouseEvent, focus: 'text' | 'preview'): void => {
    const key = (event.target as Element).closest<SVGElement>('[data-key]')?.dataset.key;
    if (key) events.picked(key, focus);
    else if (focus === 'preview') events.cleared();
  };
  const keys: Readonly<Record<string, () => void>> = {
    ArrowLeft: () => window.pan(-PAN, 0),
    ArrowRight: () => window.pan(PAN, 0),
    ArrowUp: () => window.pan(0, -PAN),
    ArrowDown: () => window.pan(0, PAN),
    '+': () => window.zoom(NEARER),
    '=': () => window.zoom(NEARER),
    '-': () => window.zoom(1 / NEARER),
    '0': fit,
  };
  picture.addEventListener('click', (event) => pick(event, 'preview'));
  picture.addEventListener('dblclick', (event) => pick(event, 'text'));
  picture.addEventListener('keydown', (event) => {
    const act = event.ctrlKey || event.metaKey || event.altKey ? undefined : keys[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  });
};
