import { propertiesOf } from '../../../analysis/material/properties.js';
import { kSourceWords } from './k-source.js';
import type { AstNode } from 'langium';
import { chooseKFactor } from '../../../analysis/material/bend-allowance.js';
import { gaugeSeriesOf } from '../../../analysis/material/gauges.js';
import type { KWorth, Outlet, Sheet } from '../../../analysis/model/tub.js';
import type { Bend, Face } from '../../../analysis/shape/shape.js';
import { atPoint, inDeg, inMm, inN, metalWords, toDeg } from '../../../analysis/model/wording.js';
import { inclinationOf } from '../../../analysis/water/standing/slopes.js';
import { throwOf } from '../../../analysis/water/outlet/jet.js';
import { splashesOf } from '../../../analysis/water/splash.js';
import { pumpStates } from '../../../analysis/water/pump/pumps.js';
import type { Evaluation } from '../../analyse.js';
import type { Outcome } from '../../solve/outcome.js';
import { legReadingText, madeText } from './made-text.js';
import { bendText } from './bend-text.js';
import { plain } from '../plain.js';
import { valueText } from '../value-text.js';

/** A statement in numbers, as Markdown; undefined where nothing is known of it. `outcome`: what was worked out for the text. */
export const describeNode = (analysis: Evaluation, node: AstNode, outcome?: Outcome): string | undefined => {
  const at = analysis.sources.idOf(node);
  const { tub } = analysis;
  switch (node.$type) {
    case 'Let':
    case 'Point':
      return valueText(analysis, node, outcome);
    case 'Sheet': {
      const sheet = tub.sheets.find((each) => each.at === at);
      return sheet && sheetText(sheet);
    }
    case 'Panel':
    case 'Leg':
    case 'Side':
    case 'Flange':
      return panelText(analysis, at);
    case 'Strip':
      return stripText(analysis, at);
    case 'Bend':
      return (
        bendsAt(analysis, at)
          .map((bend) => bendText(analysis, bend))
          .join('\n\n') || undefined
      );
    case 'BendReading': {
      const read = (tub.made ?? [])
        .flatMap(({ bends }) => bends)
        .find((each) => each.at === analysis.sources.idOf(node, 'word'));
      const bend =
        read && analysis.stages.shape().bends.find(({ faces }) => faces.every((face) => read.panels.includes(face)));
      return bend && bendText(analysis, bend);
    }
    case 'LegReading':
      return legReadingText(analysis, analysis.sources.idOf(node, 'word'));
    case 'Made':
      return madeText(analysis, analysis.sources.idOf(node, 'word'));
    case 'Outlet': {
      const index = tub.outlets.findIndex((each) => each.at === at);
      return index < 0 ? undefined : outletText(analysis, tub.outlets[index], index);
    }
    case 'Inflow':
      return (
        [pumpText(analysis, at), splashWords(analysis, at)].filter((text) => text !== undefined).join('\n\n') ||
        undefined
      );
    case 'Seam':
      return seamText(analysis, at);
    case 'Tank': {
      const tank = tub.tanks.find((each) => each.at === at);
      return (
        tank &&
        `**Tank** \`${tank.name}\`: holds ${plain(tank.capacityMm3 / 1e6, 2)} L, is filled with ${plain(tank.workingMm3 / 1e6, 2)} L; ${plain((tank.capacityMm3 - tank.workingMm3) / 1e6, 2)} L are free for what runs back`
      );
    }
    default:
      return undefined;
  }
};

/** Bends that the text of a node tells of. */
export const bendsAt = ({ stages }: Evaluation, at: number): readonly Bend[] =>
  stages.shape().bends.filter((bend) => bend.at === at);

const sheetText = (sheet: Sheet): string => {
  const { kFactor, source } = chooseKFactor({ sheet, radius: sheet.radius, bendKFactor: undefined });
  const { grade, tensileMPa } = propertiesOf(sheet);
  const gauge = sheet.gauge === undefined ? '' : ` (${sheet.gauge} ga, ${gaugeSeriesOf(sheet.material).name})`;
  return [
    `**Sheet** \`${sheet.name}\`: ${metalWords(sheet)}, ${inMm(sheet.thickness)}${gauge}`,
    `- inside radius ${inMm(sheet.radius)}, R/T ${plain(sheet.radius / sheet.thickness, 2)}`,
    `- K ${plain(kFactor, 3)} from ${kSourceWords[source]}${source === 'sheet' ? worthText(sheet.kWorth, 3) : ''}`,
    ...(sheet.springbacks ?? []).map(
      ({ angle, die, within, count }) =>
        `- springs back ${inDeg(angle)}${die === undefined ? '' : ` in a die of ${inMm(die)}`}${worthText({ within: within && toDeg(within), count }, 2, ' deg')}`,
    ),
    ...(sheet.gauge === undefined ? [] : [`- ${gaugeSeriesOf(sheet.material).source}`]),
    `- ${sheet.grade === undefined ? 'taken as ' : ''}${grade}: tensile strength ${plain(tensileMPa.value, 0)} MPa (${tensileMPa.source})`,
  ].join('\n');
};

/** `, within 0.02, of 5 readings`. */
const worthText = (worth: KWorth | undefined, decimals: number, unit = ''): string =>
  [
    worth?.within === undefined ? '' : `, within ${plain(worth.within, decimals)}${unit}`,
    worth?.count === undefined ? '' : `, of ${worth.count} ${worth.count === 1 ? 'reading' : 'readings'}`,
  ].join('');

const panelText = (analysis: Evaluation, at: number): string | undefined => {
  const index = analysis.tub.panels.findIndex((panel) => panel.at === at);
  const face = index < 0 ? undefined : analysis.stages.shape().faces[index];
  if (!face) return undefined;
  const panel = analysis.tub.panels[index];
  const sheet = analysis.tub.sheets[panel.sheet];
  const bends = bendsAt(analysis, at).map((bend) => `\n\n${bendText(analysis, bend)}`);
  if (!face.usable)
    return `**Panel** \`${panel.name}\` of \`${sheet.name}\`: its outline is faulty, so nothing more is known of it${bends.join('')}`;
  return (
    [
      `**Panel** \`${panel.name}\` of \`${sheet.name}\` (${sheet.material}, ${inMm(sheet.thickness)})`,
      slopeLine(analysis, face),
      `- wet area ${plain(face.area / 100, 1)} cm², ${face.corners.length} corners`,
      ...bowLine(analysis, face),
    ].join('\n') + bends.join('')
  );
};

const bowLine = ({ stages }: Evaluation, { panel }: Face): readonly string[] => {
  const bow = stages.bows().find(({ face }) => face === panel);
  if (!bow) return [];
  const most = bow.most === undefined ? '' : ` to ${inMm(bow.most)}`;
  return [`- full, it bows ${inMm(bow.least)}${most} under the liquid${bow.isLinear ? '' : ', by a linear estimate'}`];
};

const slopeLine = ({ stages }: Evaluation, face: Face): string => {
  const { normal } = face.frame;
  if (normal[2] <= 0) return `- the wet face leans over: ${inDeg(inclinationOf(normal))} from level`;
  const slope = stages
    .water()
    .panels()
    .find((each) => each.face === face.panel);
  const inclination = slope?.inclination ?? inclinationOf(normal);
  const worst = slope && slope.worst !== slope.inclination ? `; ${inDeg(slope.worst)} at worst within \`level\`` : '';
  return `- slopes ${inDeg(inclination)}, ${plain(Math.tan(inclination) * 1000, 1)} mm per metre${worst}`;
};

const stripText = (analysis: Evaluation, at: number): string | undefined => {
  const strip = analysis.tub.strips.find((each) => each.at === at);
  if (!strip) return undefined;
  const names = strip.panels.map((panel) => `\`${analysis.tub.panels[panel].name}\``).join(', ');
  const part = analysis.stages
    .parts()
    .findIndex(({ faces }) => strip.panels.length > 0 && faces.includes(strip.panels[0]));
  const flat = part < 0 ? undefined : analysis.stages.flats()[part];
  const developed = flat ? [`- laid flat as part \`${flat.name}\`: ${flatSize(flat.outline)}`] : [];
  return [
    `**Strip** \`${strip.name}\`: ${strip.panels.length} legs, ${inMm(strip.width)} wide`,
    `- ${names}`,
    ...developed,
  ].join('\n');
};

const flatSize = (outline: readonly { readonly x: number; readonly y: number }[]): string => {
  const span = (values: readonly number[]): number =>
    values.reduce((a, b) => Math.max(a, b), -Infinity) - values.reduce((a, b) => Math.min(a, b), Infinity);
  return `${inMm(span(outline.map(({ x }) => x)))} by ${inMm(span(outline.map(({ y }) => y)))}`;
};

const outletSize = ({ weir, diameter, spout }: Outlet): string => {
  if (spout) return `an edge ${inMm(spout.length)} long`;
  if (!weir) return inMm(diameter);
  return weir.kind === 'notch' ? `a notch ${inMm(weir.width)} wide` : `a vee of ${inDeg(weir.angle)}`;
};

const outletText = ({ stages }: Evaluation, outlet: Outlet, index: number): string => {
  const lines = [
    `**${outlet.overflow ? 'Overflow' : 'Outlet'}** \`${outlet.name}\`: ${outletSize(outlet)} at ${atPoint(outlet.center)}`,
  ];
  const state = stages
    .water()
    .outlets()
    .find((each) => each.outlet === index);
  const blocked = stages
    .water()
    .whenBlocked()
    ?.outlets.find((each) => each.outlet === index);
  if (outlet.overflow && blocked && Number.isFinite(blocked.head))
    lines.push(
      `- with the others shut it takes ${plain((blocked.rateMm3S * 60) / 1e6, 2)} L/min with ${inMm(blocked.head)} of water over it, ${inMm(blocked.floodLevel - blocked.waterLevel)} below the rim`,
    );
  if (!state || state.rateMm3S <= 0) return [...lines, '- no inflow reaches it'].join('\n');
  lines.push(`- takes ${plain((state.rateMm3S * 60) / 1e6, 2)} L/min with ${inMm(state.head)} of water over it`);
  if (state.jet)
    lines.push(
      `- leaves at ${plain(state.jet.speed / 1000, 2)} m/s, ${inDeg(state.jet.down)} down; 300 mm below it comes down ${inMm(throwOf(state.jet, 300))} out`,
    );
  if (state.headBand)
    lines.push(`- by what is published of such edges ${inMm(state.headBand[0])} to ${inMm(state.headBand[1])}`);
  if (Number.isFinite(state.floodLevel) && Number.isFinite(state.waterLevel)) {
    lines.push(`- ${inMm(state.floodLevel - state.waterLevel)} left to where the tub runs over`);
  }
  if (state.blockedAt !== undefined)
    lines.push(`- the tub runs over with ${plain(state.blockedAt * 100, 0)} % of the strainer blocked`);
  return lines.join('\n');
};

const pumpText = ({ tub, stages }: Evaluation, at: number): string | undefined => {
  const found = pumpStates(tub, stages.water()).find(({ inflow }) => tub.inflows[inflow].at === at);
  if (!found) return undefined;
  const flow = (rateMm3S: number): string => `${plain((rateMm3S * 60) / 1e6, 2)} L/min`;
  return [
    `**Pump** of \`${tub.inflows[found.inflow].name}\`: ${flow(found.usual.rateMm3S)} at ${inMm(found.usual.head)}, of which ${inMm(found.lift)} are lift`,
    `- ${flow(found.least)} to ${flow(found.most)}, by the level in the tank and how the hose is laid`,
    ...(found.cover === undefined
      ? []
      : [`- ${inMm(found.cover)} over its inlet at the lowest, of ${inMm(found.needed)} needed`]),
  ].join('\n');
};

const splashWords = ({ tub, stages }: Evaluation, at: number): string | undefined => {
  const found = splashesOf(tub, stages.water()).find(({ inflow }) => tub.inflows[inflow].at === at);
  if (!found) return undefined;
  const { inflow, fall, rises, reaches, rim } = found;
  return [
    `**Fall** of \`${tub.inflows[inflow].name}\`: ${inMm(fall)}; drops rise ${inMm(rises)} and come ${inMm(reaches)} far, by rule of thumb`,
    ...(rim
      ? [
          `- \`${tub.panels[rim.face].name}\`, ${inMm(rim.off)} beside it, stands ${inMm(rim.has, rim.needs)} above where it lands and needs ${inMm(Math.max(0, rim.needs), rim.has)}`,
        ]
      : []),
  ].join('\n');
};

const seamText = ({ tub, stages }: Evaluation, at: number): string | undefined => {
  const index = tub.seams.findIndex((each) => each.at === at);
  const joint = index < 0 ? undefined : stages.joints().seams.find((each) => each.seam === index);
  if (!joint) return undefined;
  const widest = joint.runs.reduce((most, { gap }) => Math.max(most, gap.expected), 0);
  const force = joint.runs.reduce((most, { gap }) => Math.max(most, gap.pullForce ?? Infinity), 0);
  return [
    `**Seam** \`${joint.name}\`: ${inMm(joint.length)} long`,
    `- gap to expect ${inMm(widest)} at its widest; ${inMm(joint.allowed)} allowed`,
    Number.isFinite(force)
      ? `- a clamp of ${inN(force)} pulls it that far; ${inN(joint.clampAtMost)} allowed`
      : '- no clamp pulls it that far',
  ].join('\n');
};
