import type {
  Accept as AcceptModel,
  AcceptedMost,
  Air,
  Box,
  DrainPath,
  Inflow as InflowModel,
  Liquid as LiquidModel,
  PathStop,
  Tank as TankModel,
  Week as WeekModel,
  Zone as ZoneModel,
} from '../../../analysis/model/tub.js';
import { liquidPresets } from '../../../analysis/water/flow/liquids.js';
import {
  isOutlet,
  type Accept,
  type Expression,
  type Inflow,
  type Liquid,
  type Path,
  type Ref,
  type Tank,
  type Week,
  type Zone,
} from '../../generated/ast.js';
import { shownAs } from '../values/coerce.js';
import { evaluate } from '../values/evaluate.js';
import type { Indices } from '../indices.js';
import type { Lowering } from '../lowering.js';
import { isPanelNode, nameOf, reportWrongKind, targetOf, textOf } from '../references.js';
import { pumpOf, type PumpContext } from './pumps.js';
import { powersOf, samePowers } from '../values/units.js';
import { describe } from '../values/values.js';
import { asAngle, asDimension, asLength, asNumber, asPoint, NOT_NEGATIVE, POSITIVE } from '../values/coerce.js';

export const liquidOf = (lowering: Lowering, node: Liquid): LiquidModel | undefined => {
  const name = `liquid \`${node.name}\``;
  const wetting = wettingOf(lowering, node, name);
  if (node.viscosity) {
    const viscosityCst = asDimension(lowering, node.viscosity, 'viscosity', `Viscosity of ${name}`, POSITIVE);
    const densityKgM3 = asDimension(lowering, node.density, 'density', `Density of ${name}`, POSITIVE);
    if (viscosityCst === undefined || densityKgM3 === undefined) return undefined;
    return { name: node.name, at: lowering.idOf(node), viscosityCst, densityKgM3, ...wetting };
  }
  if (Object.hasOwn(liquidPresets, node.name)) {
    const { viscosityCst, densityKgM3 } = liquidPresets[node.name];
    return { name: node.name, at: lowering.idOf(node), viscosityCst, densityKgM3, ...wetting };
  }
  if ((node.name as string | undefined) === undefined) return undefined;
  const known = Object.keys(liquidPresets).join(', ');
  lowering.reports.add(
    'liquid/unknown',
    lowering.idOf(node),
    `Known by name are ${known}; ${name} needs its viscosity and density, such as \`liquid ${node.name} 22 cSt 870 kg/m3\``,
  );
  return undefined;
};

const wettingOf = (
  lowering: Lowering,
  node: Liquid,
  name: string,
): Pick<LiquidModel, 'surfaceTensionMNM' | 'contactAngleDeg'> => {
  const stated = lowering.only(node, 'tension', node.tension);
  const tension = asDimension(lowering, stated, 'tension', `Surface tension of ${name}`, POSITIVE);
  const contact = asAngle(lowering, lowering.only(node, 'contact', node.contact), `Contact angle of ${name}`, {
    above: 0,
    atMost: 180,
  });
  return {
    surfaceTensionMNM: tension === undefined ? undefined : tension * 1e6,
    contactAngleDeg: contact === undefined ? undefined : (contact * 180) / Math.PI,
  };
};

export const inflowOf = (
  lowering: Lowering,
  node: Inflow,
  indices: Indices,
  taken: Set<string>,
  context: PumpContext,
): InflowModel | undefined => {
  const panel = indices.wetPanelAt(node.panel);
  const point = asPoint(lowering, node.point, 'Place of the inflow');
  const fall = asLength(lowering, node.fall, 'Height from which the inflow falls', NOT_NEGATIVE);
  const pumped = node.pumped ? pumpOf(lowering, node, { panel, point, fall }, context) : undefined;
  const rateMm3S = node.pumped
    ? pumped?.rateMm3S
    : asDimension(lowering, node.rate, 'flow', 'Rate of the inflow', POSITIVE);
  const solidsRate = asDimension(lowering, node.solidsRate, 'flow', 'Rate of the solids', {
    above: 0,
    ...(rateMm3S !== undefined && { below: (rateMm3S * shownAs.flow.times) / shownAs.flow.per }),
  });
  if (panel === undefined || rateMm3S === undefined) return undefined;
  const solids = node.solids && solidsRate !== undefined ? { kind: node.solids, rateMm3S: solidsRate } : undefined;
  const name = node.name ?? freeName(`inflow on ${indices.panelName(panel)}`, taken);
  const pump = pumped && { pump: pumped.pump };
  return { name, at: lowering.idOf(node), panel, point, ...(fall ? { fall } : {}), rateMm3S, ...pump, solids };
};

const freeName = (base: string, taken: Set<string>): string => {
  let name = base;
  for (let i = 2; taken.has(name); i++) name = `${base} ${i}`;
  taken.add(name);
  return name;
};

export const pathOf = (lowering: Lowering, node: Path, indices: Indices): DrainPath => ({
  at: lowering.idOf(node),
  stops: (node.stops ?? []).flatMap((stop) => pathStop(lowering, stop, indices) ?? []),
  atLeast: asAngle(lowering, node.atLeast, 'Least slope of the path', { atLeast: 0, below: 90 }),
});

const pathStop = (lowering: Lowering, ref: Ref, indices: Indices): PathStop | undefined => {
  const target = targetOf(ref);
  if (!target) return undefined;
  const stop = { at: lowering.idOf(ref), name: nameOf(target) };
  if (isOutlet(target)) {
    const outlet = indices.outletOf(target);
    return outlet === undefined ? undefined : { ...stop, kind: 'outlet', outlet };
  }
  if (!isPanelNode(target)) return reportWrongKind(lowering, ref, 'a panel or an outlet');
  const panel = indices.wetPanelAt(ref);
  return panel === undefined ? undefined : { ...stop, kind: 'panel', panel };
};

export const tankOf = (lowering: Lowering, node: Tank, indices: Indices): TankModel | undefined => {
  const name = `tank \`${node.name}\``;
  const capacityMm3 = asDimension(lowering, node.capacity, 'volume', `Capacity of ${name}`, POSITIVE);
  const working = lowering.only(node, 'working', node.working);
  const workingMm3 = asDimension(lowering, working, 'volume', `Working volume of ${name}`, POSITIVE);
  const under = (node.under ?? []).flatMap((ref) => indices.outletAt(ref) ?? []);
  const box = boxOf(lowering, lowering.only(node, 'from', node.from), lowering.only(node, 'to', node.to), name);
  if (!working) {
    lowering.reports.add(
      'tank/no-working-volume',
      lowering.idOf(node),
      `Tank \`${node.name}\` states no working volume; it needs one such as \`working 40 L\``,
      { about: [node.name] },
    );
  }
  if (capacityMm3 === undefined || workingMm3 === undefined) return undefined;
  return { name: node.name, at: lowering.idOf(node), capacityMm3, workingMm3, under, box };
};

export const weekOf = (lowering: Lowering, node: Week): WeekModel | undefined => {
  const part = <T>(property: string, values: readonly T[] | undefined): T | undefined =>
    lowering.only(node, property, values);
  const days = (property: 'days' | 'cleaned' | 'topped', subject: string): number | undefined =>
    asNumber(lowering, part(property, node[property]), subject, { atLeast: 1, atMost: 7, whole: true });
  const flow = (property: 'splash' | 'evaporates', subject: string): number | undefined =>
    asDimension(lowering, part(property, node[property]), 'flow', subject, NOT_NEGATIVE);
  const hoursPerDay = asNumber(lowering, part('hours', node.hours), 'Hours of work in a day', { above: 0, atMost: 24 });
  const worked = days('days', 'Days of work in the week');
  const rest = {
    cleanedEvery: days('cleaned', 'Days between cleanings'),
    toppedUpEvery: days('topped', 'Days between toppings up'),
    splashMm3S: flow('splash', 'Splash'),
    evaporatesMm3S: flow('evaporates', 'Evaporation'),
    air: airOf(lowering, node),
    margin: asLength(lowering, part('margin', node.margin), 'Margin below the rim', NOT_NEGATIVE) ?? 0,
  };
  if (node.hours.length === 0)
    lowering.reports.add(
      'week/no-hours',
      lowering.idOf(node),
      'The week states no work; it needs `run` with hours and days, such as `run 6 hours for 5 days`',
    );
  if (hoursPerDay === undefined || worked === undefined) return undefined;
  return { at: lowering.idOf(node), hoursPerDay, days: worked, ...rest };
};

/** The air over the tub; where a rate is stated as well, that is told and counts. */
const airOf = (lowering: Lowering, node: Week): Air | undefined => {
  const stated = lowering.only(node, 'celsius', node.celsius);
  if (!stated) return undefined;
  if (node.evaporates.length > 0) {
    const message = 'Evaporation is stated by its rate and by the air; one of the two needs to go';
    lowering.reports.add('text/stated-twice', lowering.idOf(node, 'celsius'), message);
    return undefined;
  }
  const celsius = asNumber(lowering, stated, 'Temperature, degrees Celsius,', { atLeast: 0, atMost: 60 });
  const humidity = asNumber(lowering, lowering.only(node, 'humidity', node.humidity), 'Humidity of the air', {
    atLeast: 0,
    atMost: 1,
  });
  const wind = lowering.only(node, 'wind', node.wind);
  const windMmS = wind ? asDimension(lowering, wind, 'speed', 'Wind', NOT_NEGATIVE) : 0;
  return celsius === undefined || humidity === undefined || windMmS === undefined
    ? undefined
    : { celsius, humidity, windMmS };
};

const boxOf = (
  lowering: Lowering,
  from: Expression | undefined,
  to: Expression | undefined,
  name: string,
): Box | undefined => {
  const [a, b] = [asPoint(lowering, from, `Corner of ${name}`), asPoint(lowering, to, `Corner of ${name}`)];
  if (!a || !b) return undefined;
  return {
    min: [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.min(a[2], b[2])],
    max: [Math.max(a[0], b[0]), Math.max(a[1], b[1]), Math.max(a[2], b[2])],
  };
};

export const zoneOf = (lowering: Lowering, node: Zone): ZoneModel | undefined => {
  const box = boxOf(lowering, node.from, node.to, `${node.kind} \`${node.name}\``);
  return box && { name: node.name, at: lowering.idOf(node), box };
};

/** What is accepted; undefined, and reported, where it says no reason or its limit is none. */
export const acceptOf = (lowering: Lowering, node: Accept): AcceptModel | undefined => {
  if (node.code === undefined || node.reason === undefined) return undefined;
  const names = (node.on ?? []).map((ref) => {
    const target = targetOf(ref);
    return target && ref.edge === undefined ? nameOf(target) : textOf(ref);
  });
  const on = node.label ?? (names.length === 0 ? undefined : names.join(' '));
  if (node.reason.trim() === '') {
    lowering.reports.add(
      'text/empty-reason',
      lowering.idOf(node, 'reason'),
      'The reason is empty; say why this is taken',
    );
    return undefined;
  }
  const most = node.most && mostOf(lowering, node.most);
  if (node.most && !most) return undefined;
  const within = lowering.sources.fileIdsOf(node);
  const as = node.severity && { as: node.severity };
  return { at: lowering.idOf(node), code: node.code, on, most, ...as, within, because: node.reason };
};

/** What findings are measured in, each in the unit in which it is shown. */
const measured = ['length', 'angle', 'volume', 'flow', 'force', 'number'] as const;

const mostOf = (lowering: Lowering, node: Expression): AcceptedMost | undefined => {
  const value = evaluate(lowering, node);
  if (!value) return undefined;
  const text = node.$cstNode?.text ?? '';
  const dimension =
    value.kind === 'number' ? measured.find((each) => samePowers(powersOf(each), value.powers)) : undefined;
  if (value.kind === 'number' && dimension) {
    const { times, per } = shownAs[dimension];
    const inMm = value.bare?.factor;
    const readings = {
      [dimension]: (value.value * times) / per,
      // A bare number is a length in the unit of the file wherever a length is wanted.
      ...(dimension === 'number' && inMm !== undefined ? { length: value.value * inMm } : {}),
    };
    return { at: lowering.idOf(node), readings, text };
  }
  lowering.reports.add(
    'unit/wrong',
    lowering.idOf(node),
    `What is accepted goes up to ${describe(value)}; it needs a limit such as \`1 mm\` or \`2 deg\``,
  );
  return undefined;
};
