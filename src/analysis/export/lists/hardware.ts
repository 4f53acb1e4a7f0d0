/** What is bought rather than cut: fasteners, wire cloth, filler, solder, sealant. */
import type { Closing } from '../../join/seam/method.js';
import type { Fastener, Strainer, Tub } from '../../model/tub.js';
import type { Stages } from '../../stages/stages.js';

export type HardwareItem =
  | {
      readonly kind: 'fastener';
      readonly fastener: Fastener;
      readonly count: number;
      readonly where: readonly string[];
    }
  | { readonly kind: 'wire cloth'; readonly strainer: Strainer; readonly outlet: string }
  | {
      readonly kind: 'weld filler' | 'solder' | 'sealant';
      readonly length: number;
      readonly volumeMm3: number;
      readonly where: readonly string[];
    };

/** In the order of that list; amounts are those of the finished joints. */
export const hardwareOf = (stages: Stages): HardwareItem[] => [
  ...fasteners(stages.tub),
  ...stages.tub.outlets.flatMap(({ name, strainer }): HardwareItem[] =>
    strainer ? [{ kind: 'wire cloth', strainer, outlet: name }] : [],
  ),
  ...beads(stages, 'weld filler', ['tig', 'mig']),
  ...beads(stages, 'solder', ['solder']),
  ...beads(stages, 'sealant', ['sealant']),
];

/** `Rivet nut M6, sealed`. */
export const fastenerName = ({ kind, thread, sealed }: Fastener): string =>
  `${kind === 'rivetnut' ? 'Rivet nut' : 'Screw with nut'} M${thread}${sealed ? ', sealed' : ''}`;

const fasteners = (tub: Tub): HardwareItem[] => {
  const counted = new Map<string, { fastener: Fastener; count: number; where: Set<string> }>();
  for (const { fastener, panel } of tub.openings) {
    if (!fastener) continue;
    const known = counted.get(fastenerName(fastener)) ?? { fastener, count: 0, where: new Set<string>() };
    known.count++;
    known.where.add(tub.panels[panel].name);
    counted.set(fastenerName(fastener), known);
  }
  return [...counted.values()].map(({ fastener, count, where }) => ({
    kind: 'fastener',
    fastener,
    count,
    where: [...where],
  }));
};

const beads = (
  stages: Stages,
  kind: 'weld filler' | 'solder' | 'sealant',
  closings: readonly Closing[],
): HardwareItem[] => {
  const seams = stages.joints().seams.filter(({ method }) => closings.includes(method.closing));
  const all = seams.flatMap(({ runs }) => runs.map(({ bead }) => bead));
  if (all.length === 0) return [];
  const sum = (value: (bead: (typeof all)[number]) => number): number =>
    all.reduce((total, bead) => total + value(bead), 0);
  return [
    {
      kind,
      length: sum(({ length }) => length),
      volumeMm3: sum(({ volume }) => volume),
      where: seams.map(({ name }) => name),
    },
  ];
};
