/** A welded box of sheet with a bed that falls to the front, parted by panels that stand on the bed: its text and its sizes. */

/** mm. The bed is 800 long along its fall of 2 deg, from z 40 at the back. */
export const BOX = {
  wide: 400,
  rim: 260,
  sheet: 1.5,
  backY: 800,
  backZ: 40,
  slope: Math.tan((2 * Math.PI) / 180),
} as const;

/** mm. Where the bed ends at the front. */
export const FRONT_Y = BOX.backY - 800 * Math.cos((2 * Math.PI) / 180);

/** Height of the bed, mm. */
export const bedAt = (y: number): number => BOX.backZ - (BOX.backY - y) * BOX.slope;

/** mm3 between two places of the bed up to a level that covers it. */
export const boxVolume = (from: number, to: number, level: number): number =>
  BOX.wide * (to - from) * (level - (bedAt(from) + bedAt(to)) / 2);

export interface Wall {
  readonly name: string;
  readonly at: number;
  readonly top: number;
  /** Lines that cut it. */
  readonly cuts?: string;
}

const wall = ({
  name,
  at,
  top,
  cuts = '',
}: Wall): string => `panel ${name} of skin stands on box.bed at ${at} up to ${top}
seam ${name} box.bed { weld tig }
seam ${name} left { weld tig }
seam ${name} right { weld tig }
${cuts}`;

/** Text of the box with these walls in it, and what else it has. */
export const partedBox = (walls: readonly Wall[], rest = ''): string => `units mm
tub "Parted box"
sheet skin = stainless thickness ${BOX.sheet} radius 2
strip box of skin from (0, ${BOX.backY}, ${BOX.rim}) heading front across right ${BOX.wide} {
    panel back   to z ${BOX.backZ}  falling 90 deg
    panel bed    800      falling 2 deg
    panel front  to z ${BOX.rim} rising 90 deg
}
side left  of skin closes box.left  up to ${BOX.rim}
side right of skin closes box.right up to ${BOX.rim}
seam left box { weld tig }
seam right box { weld tig }
liquid water
${walls.map(wall).join('')}${rest}
`;

/** An outlet in the bed. */
export const outletAt = (name: string, y: number, diameter: number, how = '{ lip 15 }'): string =>
  `outlet ${name} in box.bed at (200, ${y}, ${BOX.backZ} - ${BOX.backY - y} * tan(2 deg)) diameter ${diameter} ${how}\n`;

/** An inflow onto the bed, L/min. */
export const inflowAt = (litres: number, y: number): string =>
  `inflow ${litres} L/min on box.bed at (200, ${y}, ${BOX.backZ} - ${BOX.backY - y} * tan(2 deg))\n`;
