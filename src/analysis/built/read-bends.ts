import type { Tub } from '../model/tub.js';
import type { Built, MadeStrip } from './as-made.js';
import { readingOfBend } from './learned.js';
import type { TurnedBend } from './turned.js';

/** Every bend that was read: strip by strip, then those of flanges and of panels by points. */
export const readBendsOf = (tub: Tub, { strips, turned }: Built): readonly TurnedBend[] => [
  ...strips.flatMap((strip) => ofStrip(tub, strip)),
  ...turned,
];

const ofStrip = (tub: Tub, strip: MadeStrip): TurnedBend[] =>
  strip.profile.bends.flatMap(({ bend, turn }) => {
    const reading = readingOfBend(tub, strip, bend);
    return reading ? [{ made: strip.made, reading, name: tub.bends[bend].name, planned: Math.abs(turn) }] : [];
  });
