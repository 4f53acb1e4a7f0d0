import { middleOf } from '../../../analysis/geometry/polygon.js';
import { ROUND_OFF } from '../../../analysis/geometry/tolerance.js';
import { distance, type Vec3 } from '../../../analysis/geometry/vec.js';
import type { CurvePoint, Liquid, PanelIndex, Pump, Tank as TankModel } from '../../../analysis/model/tub.js';
import { liquidOf } from '../../../analysis/water/flow/liquids.js';
import { operatingPoint } from '../../../analysis/water/pump/operating-point.js';
import { levelDrawnFrom } from '../../../analysis/water/pump/agree.js';
import { inMm, plain } from '../../../analysis/model/wording.js';
import { isTank, type Inflow, type Tank } from '../../generated/ast.js';
import { asDimension, asLength, asNumber, asPoint, NOT_NEGATIVE, POSITIVE } from '../values/coerce.js';
import type { Lowering } from '../lowering.js';
import { reportWrongKind, targetOf } from '../references.js';

/** What a pumped inflow is worked out from. */
export interface PumpContext {
  readonly tanks: readonly TankModel[];
  readonly tankIndices: ReadonlyMap<Tank, number>;
  readonly liquid: Liquid | undefined;
  readonly corners: (panel: PanelIndex) => readonly Vec3[];
  /** Where a place of the tub comes to be as it is set up. */
  readonly standing: (place: Vec3) => Vec3;
}

/** Where an inflow lands, and from how high above. */
export interface Landing {
  readonly panel: PanelIndex | undefined;
  readonly point: Vec3 | undefined;
  readonly fall: number | undefined;
}

/** The pump of an inflow and what it brings, mm3/s; undefined, and reported, where it says too little or does not lift. */
export const pumpOf = (
  lowering: Lowering,
  node: Inflow,
  { panel, point, fall = 0 }: Landing,
  context: PumpContext,
): { readonly pump: Pump; readonly rateMm3S: number } | undefined => {
  const name = `the pump of \`${node.name ?? 'inflow'}\``;
  const tank = tankAt(lowering, node, context);
  const inlet = asPoint(lowering, node.inlet, `Place of the inlet of ${name}`);
  const hose = hoseOf(lowering, node, name);
  const curve = curveOf(lowering, node, name);
  const covered = asLength(
    lowering,
    lowering.only(node, 'covered', node.covered),
    `Cover of the inlet of ${name}`,
    NOT_NEGATIVE,
  );
  if (tank === undefined || !inlet || !hose || !curve || panel === undefined) return undefined;
  const [x, y, z] = context.standing(point ?? middleOf(context.corners(panel)));
  const outlet: Vec3 = [x, y, z + fall];
  const pump: Pump = { at: lowering.idOf(node), tank, inlet, outlet, curve, hose, covered };
  const lift = outlet[2] - levelDrawnFrom(context, pump);
  const apart = distance(inlet, outlet);
  if (hose.length < apart - ROUND_OFF) {
    lowering.reports.add(
      'value/out-of-range',
      lowering.idOf(node.hose[0].length),
      `The hose of ${name} is ${inMm(hose.length, apart)} long and ends ${inMm(apart, hose.length)} from its inlet; it needs to be as long as that at least`,
      { about: node.name ? [node.name] : [], values: { has_mm: hose.length, needs_mm: apart } },
    );
    return undefined;
  }
  const { viscosityCst } = liquidOf(context.liquid);
  const usual = operatingPoint(pump, { lift, viscosityCst });
  if (usual) return { pump, rateMm3S: usual.rateMm3S };
  lowering.reports.add(
    'inflow/not-lifted',
    lowering.idOf(node),
    `${capital(name)} lifts ${inMm(curve[0].head, lift)} at ${plain((curve[0].rateMm3S * 60) / 1e6, 2)} L/min; its hose ends ${inMm(lift, curve[0].head)} above the liquid, so it needs to lift more than that`,
    { about: node.name ? [node.name] : [], values: { has_mm: curve[0].head, needs_mm: lift } },
  );
  return undefined;
};

const capital = (words: string): string => words[0].toUpperCase() + words.slice(1);

const tankAt = (lowering: Lowering, node: Inflow, { tankIndices }: PumpContext): number | undefined => {
  const target = targetOf(node.tank);
  if (!target) return undefined;
  return isTank(target) ? tankIndices.get(target) : reportWrongKind(lowering, node.tank!, 'a tank');
};

const hoseOf = (lowering: Lowering, node: Inflow, name: string): Pump['hose'] | undefined => {
  const hose = lowering.only(node, 'hose', node.hose);
  if (!hose) return tellLacking(lowering, node, name, 'hose', 'hose bore 12 long 1.8 m');
  const bore = asLength(lowering, hose.bore, `Bore of the hose of ${name}`, POSITIVE);
  const length = asLength(lowering, hose.length, `Length of the hose of ${name}`, POSITIVE);
  const bends = asNumber(lowering, hose.bends, `Bends of the hose of ${name}`, {
    atLeast: 0,
    whole: true,
    limit: 'listed',
  });
  return bore === undefined || length === undefined || (hose.bends && bends === undefined)
    ? undefined
    : { bore, length, bends: bends ?? 0 };
};

const tellLacking = (lowering: Lowering, node: Inflow, name: string, what: string, such: string): undefined => {
  lowering.reports.add(
    'inflow/pump-incomplete',
    lowering.idOf(node),
    `${capital(name)} states no ${what}; it needs one such as \`${such}\``,
    { about: node.name ? [node.name] : [] },
  );
  return undefined;
};

/** Flows rising, heads falling; a curve that does not is reported at the point that is wrong. */
const curveOf = (lowering: Lowering, node: Inflow, name: string): readonly CurvePoint[] | undefined => {
  const stated = lowering.only(node, 'curve', node.curve);
  if (!stated || stated.flows.length < 2)
    return tellLacking(lowering, node, name, 'curve of two points', 'curve 0 L/min at 3.2 m  20 L/min at 1.4 m');
  const points = stated.flows.map((flow, i) => {
    const rateMm3S = asDimension(lowering, flow, 'flow', `Flow of the curve of ${name}`, NOT_NEGATIVE);
    const head = asLength(lowering, stated.heads[i], `Head of the curve of ${name}`, NOT_NEGATIVE);
    return rateMm3S === undefined || head === undefined ? undefined : { rateMm3S, head };
  });
  const known = points.flatMap((each) => each ?? []);
  if (known.length < points.length) return undefined;
  const wrong = known.findIndex(
    (each, i) => i > 0 && !(each.rateMm3S > known[i - 1].rateMm3S && each.head < known[i - 1].head),
  );
  if (wrong < 0) return known;
  const told = ({ rateMm3S, head }: CurvePoint): string => `${inMm(head)} at ${plain((rateMm3S * 60) / 1e6, 2)} L/min`;
  lowering.reports.add(
    'inflow/curve-rises',
    lowering.idOf(stated, 'flows', wrong),
    `The curve of ${name} goes from ${told(known[wrong - 1])} to ${told(known[wrong])}; its flows need to rise and its heads to fall`,
    { about: node.name ? [node.name] : [] },
  );
  return undefined;
};
