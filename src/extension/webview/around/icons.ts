import { svg } from '../dom.js';

/** Line drawings of 16 by 16, of our own. */
const PATHS = {
  flat: 'M5.5 1.5h5v4h4v5h-4v4h-5v-4h-4v-5h4zM5.5 5.5h5v5h-5z',
  folded: 'M1.5 5.5 9 2.5l5.5 2.5v4L7 13.5l-5.5-3zM1.5 5.5 7 8.5l7.5-3.5M7 8.5v5',
  water:
    'M1.5 5.5c2-1.6 3.3-1.6 4.4 0s2.3 1.6 4.3 0 3.3-1.6 4.3 0M1.5 10c2-1.6 3.3-1.6 4.4 0s2.3 1.6 4.3 0 3.3-1.6 4.3 0',
  hours: 'M2 13.5h12M2 13.5v-11M3.5 10.5l3-4 2.5 2 4-5.5',
  bends: 'M2 12.5h6l5-8M4.5 12.5a5 5 0 0 1 5-3.5',
  nest: 'M1.5 2.5h13v11h-13zM1.5 8.5h7v-6M8.5 13.5v-5h6',
  choices: 'M2.5 1.5v12h12M4.5 4.5c.5 4 2.5 6 8.5 7M5 6.5h.01M7.5 9.5h.01M11.5 11h.01',
  made: 'M1.5 3.5h5l4 8h4M1.5 6.5h4l4.5 7M12 3.5l1 1 1.5-2.5',
  fit: 'M1.5 5.5v-4h4M10.5 1.5h4v4M14.5 10.5v4h-4M5.5 14.5h-4v-4M5.5 5.5h5v5h-5z',
  controls: 'M1.5 4.5h7M11.5 4.5h3M8.5 2.5v4h3v-4zM1.5 11.5h2M6.5 11.5h8M3.5 9.5v4h3v-4z',
  table: 'M1.5 2.5h13v11h-13zM1.5 6h13M1.5 9.5h13M6 2.5v11',
  drawing: 'M3.5 1.5h6l3 3v10h-9zM9.5 1.5v3h3M5.5 12l2-4 1.5 2.5 1-1.5 1 3z',
  image: 'M1.5 3.5h13v9h-13zM1.5 11l4-4 3 3 2-1.5 4 3.5M11 5.5h.01',
} as const;

export type Icon = keyof typeof PATHS;

export const icon = (name: Icon): SVGSVGElement =>
  svg('svg', { class: 'icon', viewBox: '0 0 16 16', 'aria-hidden': 'true' }, svg('path', { d: PATHS[name] }));
