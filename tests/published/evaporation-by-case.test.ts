/** What goes into the air against the cases of `cases/evaporation.tsv`. */
import { meyer, MM_A_DAY, overPool, rohwer, STILL, vapourPressure } from '../../src/analysis/water/week/evaporation.js';
import { holdToCases, type Given, type Runs } from './cases/published-cases.js';

const pressure = ({ T_C }: Given): number => vapourPressure(T_C);
const lake = ({ T_C, RH_pct, u2_km_h, K }: Given): number => {
  const saturated = vapourPressure(T_C);
  return meyer({ saturated, air: (RH_pct / 100) * saturated, windKmH: u2_km_h, windAt: 2 }, K);
};
const stillPool = ({ pw_inHg, pa_inHg, v_ft_min, Y_Btu_lb }: Given): number =>
  STILL * overPool(pw_inHg, pa_inHg, v_ft_min, Y_Btu_lb);
const punmia = { saturated: 31.81, air: 0.4 * 31.81, windKmH: 18, windAt: 2 };

const runs: Runs = {
  'EV-PUN-4.15-R': ({ es_mmHg, RH, u_km_h, p_mmHg }) =>
    rohwer({ saturated: es_mmHg, air: RH * es_mmHg, windKmH: u_km_h, windAt: 2 }, p_mmHg),
  'EV-PUN-4.15-Rd': {
    run: ({ days }) => days * rohwer(punmia),
    off: 0.4,
    because: 'it goes on with a day that is rounded to 20.74',
  },
  'EV-DEL-ew-Jan': pressure,
  'EV-DEL-E-Jan': lake,
  'EV-DEL-ew-Apr': pressure,
  'EV-DEL-E-Apr': lake,
  'EV-DEL-ew-Nov': pressure,
  'EV-DEL-E-Nov': lake,
  'EV-SUB-3.1': ({ es_mmHg, ea_mmHg, u1_km_h, K }) =>
    meyer({ saturated: es_mmHg, air: ea_mmHg, windKmH: u1_km_h, windAt: 1 }, K),
  'EV-ASH-c': () => overPool(1, 0, 0, 1),
  'EV-ASH-74': () => STILL,
  'EV-ASH-1.1-10': stillPool,
  'EV-ASH-0.9-0': stillPool,
  'EV-unit': () => MM_A_DAY,
};

holdToCases('evaporation', runs, {
  'a rate by a wind that is not told, times days and area': ['EV-PUN-4.15-Md', 'EV-PUN-4.15-Mv'],
  'readings of a pan are not taken': ['EV-PUN-4.14', 'EV-PUN-4.48'],
});
