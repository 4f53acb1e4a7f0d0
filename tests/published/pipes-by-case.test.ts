/** Pipes, hoses and pumps against the cases of `cases/pipes.tsv`. */
import { createStages } from '../../src/analysis/stages/stages.js';
import { balanceWith } from '../../src/analysis/water/outlet/tank-share.js';
import {
  BEND,
  EXIT,
  frictionFactor,
  fullFlow,
  pipeLoss,
  RUBBER_HOSE,
  SHARP_ENTRY,
  SMOOTH_PIPE,
  speedIn,
  THREADED_BEND,
  type Pipe,
} from '../../src/analysis/water/pipe/pipe-flow.js';
import { operatingPoint } from '../../src/analysis/water/pump/operating-point.js';
import { HOSE_EXCESS, leastCover } from '../../src/analysis/water/pump/pumps.js';
import { GRAVITY } from '../../src/analysis/water/flow/depth.js';
import { analyseText } from '../support/analyse-text.js';
import { holdToCases, solve, type Given, type Runs } from './cases/published-cases.js';

const FOOT = 304.8;
const INCH = 25.4;
const CUBIC_FOOT = FOOT ** 3;
const GALLON = 231 * INCH ** 3;
const LITRE = 1e6;
const areaOf = (bore: number): number => (Math.PI / 4) * bore ** 2;
const pipe = (bore: number, length: number, roughness: number, fittings = 0): Pipe => ({
  ...{ bore, length, roughness, fittings },
});

const darcy = ({ Re, e_over_D }: Given): number => frictionFactor(Re, e_over_D);
/** Explicit formulas that follow Colebrook, which the product solves: how far off they are by their tables and by ours. */
const near = (off: number, because: string): Runs[string] => ({ run: darcy, off, because });
const JAIN = 'an explicit form, within 1 % of Colebrook by its authors';

/** The roughness at which the factor of a source is reached, so that its law of the loss can be told from its choice of a factor. */
const roughFor = (factor: number, reynolds: number, bore: number): number =>
  bore * solve((share) => frictionFactor(reynolds, share), factor, [0, 0.2]);
const MU_15 = (1.138 / 999) * 1000;

const loss60 = (): number => pipeLoss(pipe(50, 60_000, 0.002), 6 * LITRE, MU_15) / 1000;
const laminarLoss = ({ L_m, D_m, V_m_s, rho_kg_m3, mu_Pa_s }: Given): number =>
  pipeLoss(pipe(D_m * 1000, L_m * 1000, 0), V_m_s * 1000 * areaOf(D_m * 1000), (mu_Pa_s / rho_kg_m3) * 1e6) / 1000;

/** Charts lie above a smooth pipe, and below what the least flow of a hose is told by. Water at 70 F: 0.98 cSt, 2.31 ft a psi. */
const isBelowChart = ({ Q_US_gpm, d_in }: Given, psi: number): boolean => {
  const told = pipeLoss(pipe(d_in * INCH, 100 * FOOT, 0), (Q_US_gpm * GALLON) / 60, 0.98) / FOOT / 2.31;
  return psi > 1.1 * told && psi <= 1.005 * HOSE_EXCESS * told;
};
/** The formula of Hazen and Williams is made for smooth pipes of water: in feet over 100 ft. */
const smoothLoss = ({ Q_US_gpm, d_in }: Given): number =>
  pipeLoss(pipe(d_in * INCH, 100 * FOOT, SMOOTH_PIPE), (Q_US_gpm * GALLON) / 60, 1.004) / FOOT;

const cover = ({ Q_L_s, D_mm }: Given): number => leastCover(D_mm, Q_L_s * LITRE);

/** The vignette's curve h = a + c Q2 in small steps, and a hose whose loss is all in its bends: K Q2. */
const vignette = (): readonly [rate: number, head: number] => {
  const [a, c, loss] = [82.4674, -0.200937, 0.16021];
  const bore = 500;
  const curve = Array.from({ length: 401 }, (_, i) => ({
    rateMm3S: i * 0.05 * CUBIC_FOOT,
    head: (a + c * (i * 0.05) ** 2) * FOOT,
  }));
  const bend = (loss * FOOT * 2 * GRAVITY * areaOf(bore) ** 2) / CUBIC_FOOT ** 2 - EXIT;
  const pump = { curve, hose: { bore, length: 0, bends: 1 } };
  const found = operatingPoint(pump, { lift: 30 * FOOT, viscosityCst: 1, bend })!;
  return [found.rateMm3S / CUBIC_FOOT, found.head / FOOT];
};

/** mm3 that run back from a full hose into its tank, by its text. */
const runsBack = ({ d_mm, L_m }: Given): number => {
  const { tub } = analyseText(
    `units mm
sheet skin = stainless 18 ga  radius 1.2
strip floor of skin from (0, 400, 200) heading front across right 300 {
    panel back to z 80 falling 90 deg
    panel shelf 300 falling 3 deg
    panel front to z 200 rising 80 deg
}
side cheekL of skin closes floor.left  up to 200
side cheekR of skin closes floor.right up to 200
outlet drain in floor.shelf at (150, 130, 67) diameter 40 { lip 15 }
tank catch 33 L working 24 L under drain from (0, 0, -300) to (300, 400, -20)
inflow spray pumped from catch at (150, 200, -290) on floor.shelf at (150, 300, 75) {
    curve 0 L/min at 3.2 m  10 L/min at 2.6 m  26 L/min at 0 m
    hose bore ${d_mm} long ${L_m} m
}`,
    { rules: [] },
  );
  const nothingOut = { drainBack: 0, films: 0, overOutlets: 0, overCrests: 0, pools: 0, total: 0 };
  const { drainBack, needed } = balanceWith(tub, createStages(tub).water(), tub.tanks[0], nothingOut);
  return Math.abs(needed - 24 * LITRE - drainBack) < 1 ? drainBack : NaN;
};
const litresBack = (given: Given): number => runsBack(given) / LITRE;

const runs: Runs = {
  'PH-F-swameejain': near(0.0002, JAIN),
  'PH-F-jain76': near(0.0002, JAIN),
  'PH-F-moody47': near(0.0009, 'its author gives 5 %'),
  'PH-F-smooth': darcy,
  'PH-F-blasius': {
    run: ({ Re }) => frictionFactor(Re, 0),
    off: 0.0008,
    because: 'a power law, 2.5 % off the law of smooth pipes there',
  },
  'PH-CB-5000-0': darcy,
  'PH-CB-5000-0.0001': darcy,
  'PH-CB-5000-0.001': darcy,
  'PH-CB-20000-0': darcy,
  'PH-CB-20000-0.0001': darcy,
  'PH-CB-20000-0.001': darcy,
  'PH-CB-20000-0.01': darcy,
  'PH-CB-100000-0.001': darcy,
  'PH-CB-100000-0.01': darcy,
  'PH-CB-1e+06-0': darcy,
  'PH-CB-1e+06-0.0001': darcy,
  'PH-CB-1e+06-0.001': darcy,
  'PH-CB-1e+06-0.01': darcy,
  'PH-SJ-20000-0.0001': near(0.00005, JAIN),
  'PH-SJ-100000-0.001': near(0.0002, JAIN),
  'PH-SJ-1e+06-0.01': near(0.00006, JAIN),
  'PH-HYD-f': ({ Re, ks_ft, D_ft }) => frictionFactor(Re, ks_ft / D_ft),
  'PH-HYD-hf': ({ Q_ft3_s, D_in, L_ft }) =>
    pipeLoss(pipe(D_in * INCH, L_ft * FOOT, 0.0005 * FOOT), Q_ft3_s * CUBIC_FOOT, 1.23e-5 * FOOT ** 2) / FOOT,
  'PH-SYS-K': ({ Q_ft3_s, D_in, L_ft, ks_ft, nu_ft2_s }) =>
    pipeLoss(pipe(D_in * INCH, L_ft * FOOT, ks_ft * FOOT), Q_ft3_s * CUBIC_FOOT, nu_ft2_s * FOOT ** 2) / FOOT,
  'PH-SYS-Q': () => vignette()[0],
  'PH-SYS-h': () => vignette()[1],
  // m over (m3/s)2 at 5 L/s; Fanning's factor is a quarter of Darcy's.
  'PH-SCH-9.10-K': ({ L_m, d_m, f_fanning, extra_K }) => {
    const [bore, rate] = [d_m * 1000, 5 * LITRE];
    const rough = roughFor(4 * f_fanning, speedIn({ bore }, rate) * bore, bore);
    return pipeLoss(pipe(bore, L_m * 1000, rough, extra_K), rate, 1) / 1000 / 0.005 ** 2;
  },
  'PH-CEN-8.2-hL': laminarLoss,
  'PH-CEN-8.2-dP': (given) => (laminarLoss(given) * given.rho_kg_m3 * GRAVITY) / 1e6,
  'PH-CEN-8.3-f': ({ Q_L_s, D_m, eps_mm }) =>
    frictionFactor((speedIn({ bore: D_m * 1000 }, Q_L_s * LITRE) * D_m * 1000) / MU_15, eps_mm / (D_m * 1000)),
  'PH-CEN-8.3-hL': { run: loss60, off: 0.035, because: 'its factor is rounded to three digits' },
  'PH-CEN-8.3-dP': {
    run: ({ rho_kg_m3 }) => loss60() * rho_kg_m3 * (GRAVITY / 1000),
    off: 340,
    because: 'its factor is rounded to three digits',
  },
  'PH-CEN-8.8': ({ Q_L_s, D_m, L_m, K_loss_sum, z2_m }) =>
    z2_m + pipeLoss(pipe(D_m * 1000, L_m * 1000, 0.26, K_loss_sum), Q_L_s * LITRE, 1.307) / 1000,
  'PH-FOX-8.7': ({ H_ft, L_ft, D_in, f_darcy, valve_Le_over_D }) => {
    const bore = D_in * INCH;
    const rough = roughFor(f_darcy, 2.8e5, bore);
    const line = pipe(bore, (L_ft + H_ft) * FOOT, rough, valve_Le_over_D * f_darcy + EXIT);
    return (fullFlow(line, H_ft * FOOT, 1) * 60) / GALLON;
  },
  'PH-FOX-8.8': () => SHARP_ENTRY,
  'PH-SUB-10.1': ({ Re, D_cm, nu_cm2_s }) => {
    const bore = D_cm * 10;
    const rate = solve((mm3) => (speedIn({ bore }, mm3) * bore) / (nu_cm2_s * 100), Re, [0, LITRE]);
    return frictionFactor(Re, 0.05) === 64 / Re ? (rate * 60) / LITRE : NaN;
  },
  'PH-SUB-10.20': ({ Q_L_s, L_m, hf_m, eps_mm }) =>
    solve((bore) => -pipeLoss(pipe(bore, L_m * 1000, eps_mm), Q_L_s * LITRE, 1), -hf_m * 1000, [100, 1000]) / 10,
  'PH-SUB-11.17': ({ H_m, L_m, D_m, f_darcy }) => {
    const bore = D_m * 1000;
    return fullFlow(pipe(bore, L_m * 1000, roughFor(f_darcy, 2.3e5, bore)), H_m * 1000, 1) / LITRE;
  },
  'PH-K-elbow-90-flanged': () => BEND,
  'PH-K-elbow-90-threaded': () => THREADED_BEND,
  'PH-K-exit-any-shape': () => EXIT,
  'PH-eps-drawn-tubing': () => SMOOTH_PIPE,
  'PH-eps-plastic': () => SMOOTH_PIPE,
  'PH-eps-rubber': () => RUBBER_HOSE,
  'PH-hose-5-0.5': isBelowChart,
  'PH-hose-8-0.625': isBelowChart,
  'PH-hose-20-1': isBelowChart,
  'PH-vel-const': () => speedIn({ bore: INCH }, GALLON / 60) / FOOT,
  'PH-HW-150-10-0.75': { run: smoothLoss, off: 3, because: 'a power law for water in smooth pipes, 10 % off' },
  'PH-HI-3200': ({ Q_US_gpm, D_in }) => leastCover(D_in * INCH, (Q_US_gpm * GALLON) / 60) / INCH,
  'PH-HI-SI-0.5-25': cover,
  'PH-HI-SI-1-32': cover,
  'PH-HI-SI-2-50': cover,
  'PH-CEN-5.7-t': ({ V_L, d_mm, H_m }) => (V_L * LITRE) / fullFlow(pipe(d_mm, 0, 0, EXIT), H_m * 1000, 1),
  'PH-vol-19-10': litresBack,
  'PH-vol-25-5': litresBack,
  'PH-vol-12.5-3': litresBack,
  'PH-vol-rise': (given) => runsBack(given) / (600 * 400),
};

holdToCases('pipes', runs, {
  'laminar far beyond where a flow is': ['PH-F-lam2'],
  'water is taken at 20 °C': ['PH-HYD-rho25'],
  'a curve runs straight between the points of its maker': ['PH-SYS-a', 'PH-SYS-c'],
  'the speed of a pump and its power are not told': ['PH-SCH-9.10-N', 'PH-CEN-8.3-W', 'PH-CEN-14.2-b'],
  'another fluid, and a duct': ['PH-CEN-8.4', 'PH-SUB-10.23'],
  'a hose has one bore from end to end': [
    ...['PH-CEN-8.6-hL', 'PH-CEN-8.6-P2', 'PH-SUB-11.1', 'PH-SUB-11.4-s', 'PH-SUB-11.4-d', 'PH-SUB-11.9'],
    ...['PH-K-borda', 'PH-K-contr-crane', 'PH-K-contr-rennels'],
  ],
  'a fitting that a hose or pipe of the language has not': [
    ...['PH-K-long-radius-90-flanged', 'PH-K-elbow-45-threaded', 'PH-K-return-bend-180-threaded'],
    ...['PH-K-union-threaded', 'PH-K-globe-valve-open', 'PH-K-angle-valve-open', 'PH-K-gate-valve-half-closed'],
    ...['PH-K-swing-check', 'PH-K-ball-valve-open', 'PH-K-ball-valve-one-third-closed', 'PH-K-entrance-re-entrant'],
    ...['PH-K-entrance-slightly-rounded', 'PH-K-entrance-well-rounded', 'PH-K-reentrant-alt'],
  ],
  'another value of a sharp entry, for which 0.5 is taken': ['PH-K-ent-rennels'],
  'pipes and hoses are of plastic and rubber': ['PH-eps-commercial-steel', 'PH-eps-cast-iron'],
  'its coefficient of 140 is of a pipe that has aged': ['PH-HW-140-20-1'],
  'an inlet is round': ['PH-HI-rect'],
  'the pump stands in its tank: no suction line, and no pressure in it': [
    ...['PH-SUB-11.31-p', 'PH-MUN-12.3', 'PH-FOX-10.8', 'PH-SCH-9.6-V', 'PH-SCH-9.8', 'PH-KHA-12.5', 'PH-ARA-8.19'],
    ...['PH-NPSH-gauge', 'PH-NPSH-fric', 'PH-NPSH-total', 'PH-CEN-5.7-p'],
  ],
});
