import type { SceneItem } from '../../../language/protocol.js';
import type { LegendEntry } from '../around/legend.js';
import { mix, readPalette } from '../palette.js';
import { WATER_SEEN } from '../solid/meshes.js';
import { streamInks } from '../solid/streams.js';
import { bandWords } from './depth-bands.js';
import { bandOf, SLOPE_BANDS } from './slope-bands.js';
import { WALL } from './water-lines.js';
import type { DepthBands } from './water-pieces.js';

export interface ShownWater {
  readonly plugged: boolean;
  readonly bands: DepthBands;
}

/** What the marks of the water mean: those that are drawn, in the colours that they are drawn in. */
export const waterLegend = (all: readonly SceneItem[], { plugged, bands }: ShownWater): readonly LegendEntry[] => {
  const palette = readPalette();
  const has = (kind: SceneItem['kind'], spot?: string): boolean =>
    all.some((item) => item.kind === kind && (item.kind !== 'water-spot' || item.spot === spot));
  const sheet = plugged ? palette.dryMetal : palette.slopes[2];
  const waters = bandWords(bands).map((words, band) => patch(words, mix(sheet, palette.depths[band], WATER_SEEN)));
  const { film, crest } = streamInks(palette);
  const running = has('water-flow');
  const falls = all.some((item) => item.kind === 'water-face' && item.slope_deg >= 0.005 && item.slope_deg <= WALL);
  return plugged
    ? [
        patch('sheet', palette.dryMetal),
        ...(has('water-level') ? waters : []),
        ...(has('water-level') ? [sign('waterline', palette.ink, 'line')] : []),
        ...spots(has, true),
      ]
    : [
        ...SLOPE_BANDS.map(([, words], band) => patch(words, palette.slopes[band])).filter((_, band) =>
          all.some((item) => item.kind === 'water-face' && bandOf(item.slope_deg) === band),
        ),
        ...(falls ? [sign('falls this way', palette.ink, 'arrow')] : []),
        ...(has('water-pool')
          ? [
              ...waters.map((each) => ({
                ...each,
                words: bands.length === 1 ? 'stays behind' : `stays, ${each.words}`,
              })),
              sign('deepest place', palette.ink, 'drop'),
            ]
          : []),
        ...(running
          ? [sign('way of the water', palette.ink, 'line'), patch('running, wider for more', mix(film, crest, 0.7))]
          : []),
        ...(has('water-splash') ? [sign('fall, and how far drops come', palette.ink, 'line')] : []),
        ...spots(has, false),
      ];
};

const spots = (has: (kind: 'water-spot', spot: string) => boolean, plugged: boolean): readonly LegendEntry[] => {
  const { ink, warn } = readPalette();
  return [
    ...(has('water-spot', 'outlet') ? [sign('outlet', ink, 'ring')] : []),
    ...(has('water-spot', 'leak') ? [sign('lowest leak', warn, 'cross')] : []),
    ...(plugged && has('water-spot', 'overflow') ? [sign('first overflow', warn, 'cross')] : []),
  ];
};

const patch = (words: string, color: string): LegendEntry => ({ words, color, mark: 'patch' });

const sign = (words: string, color: string, mark: LegendEntry['mark']): LegendEntry => ({ words, color, mark });
