/** Findings of what came out otherwise: what was planned beside them, and what hangs on a reading. */
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/analysis/model/finding.js';
import { analyseText } from '../../support/analyse-text.js';

const tray = (fall: number, made: string): string => `units mm
sheet skin = stainless thickness 1.2 radius 1.6 k 0.42
strip floor of skin from (0, 300, 100) heading front across right 200 {
    panel back   80 falling 90 deg
    panel base  300 falling ${fall} deg
    panel front to z 100 rising 80 deg
}
side left  of skin closes floor.left  up to 100
side right of skin closes floor.right up to 100
seam left  floor { weld tig }
seam right floor { weld tig }
outlet drain in base at center(base) + (0, -100, -100 * tan(${fall} deg)) diameter 40
liquid water
inflow 2 L/min on base
path base drain
level within 0.2 deg
${made}
`;
const found = (text: string, code: string, effort: 'live' | 'full' = 'live'): readonly Finding[] =>
  analyseText(text, { effort }).findings.filter((finding) => finding.code === code);
const keyOf = ({ code, about }: Finding): string => [code, ...about].join(' ');
const stands = (slope: number): string => `made floor { panel base stands ${slope} deg  gauge within 0.05 deg }\n`;

describe('findings of a tub that came out otherwise', () => {
  it('name what was planned where that was found as well, with another number', () => {
    const [as] = found(tray(0.9, ''), 'drain/edge-without-drip');
    expect(as).toBeUndefined();
    const flat = found(tray(0.9, stands(0.6)), 'drain/too-flat');
    expect(flat[0].message).toMatch(/0.4 deg at worst \(0.6 deg as made, 0.9 deg as planned/);
  });

  it('say where it is not so as planned, and nothing of what the readings did not change', () => {
    const planned = new Set(analyseText(tray(3, '')).findings.map(keyOf));
    const all = analyseText(tray(3, stands(0.4))).findings.filter(({ code }) => !/^(made|taped)\//.test(code));
    const fresh = all.filter((finding) => !planned.has(keyOf(finding)));
    expect(fresh.length).toBeGreaterThan(0);
    for (const { message } of fresh) expect(message).toMatch(/as planned/);
    for (const finding of all.filter((each) => planned.has(keyOf(each))))
      expect(finding.message).not.toContain('as planned it is not so');
  });

  it('say in full that they hang on a reading that is worth no more than what is left to the limit', () => {
    // Needed are 1.19 deg; the stand takes 0.2.
    const near = found(tray(3, stands(1.38)), 'drain/too-flat', 'full')[0];
    expect(near.message).toContain('it hangs on what was read');
    expect(near.related.at(-1)!.message).toContain('read it again');
    const [far] = found(tray(3, stands(0.9)), 'drain/too-flat', 'full');
    expect(far.message).not.toContain('hangs');
    const [live] = found(tray(3, stands(1.38)), 'drain/too-flat');
    expect(live.message).not.toContain('hangs');
  });
});

describe('readings that cannot be', () => {
  const read = (words: string): readonly string[] =>
    found(tray(3, `made floor standing on base { ${words} }\n`), 'made/far-off').map(({ message }) => message);
  const BENDS = 'bend back base reads 87 deg  bend base front reads 83 deg';

  it('are told at their place: a slip of a zero, a leg that no K explains, a bend that closed, slopes that do not go together', () => {
    expect(read('panel base measures 3000 over inside')[0]).toContain('tape it again');
    expect(read(`${BENDS} panel base measures 306 over outside`)[0]).toContain('whatever K the metal has');
    expect(read(`${BENDS} panel base measures 302.3 over outside`)).toEqual([]);
    expect(read('bend back base reads 87 deg bent to 85 deg')[0]).toContain('no sheet closes by itself');
    expect(read('panel base stands 4 deg panel back stands 88 deg')[0]).toContain('read the bends between');
  });
});

describe('taped legs', () => {
  it('that scatter farther than the shop says are told, a wrong K by itself is not', () => {
    const legs = [0, 1, 2, 3].map((i) => `panel p${i} 120 ${i % 2 ? 'falling 40' : 'falling 2'} deg`).join('\n');
    const text = (lengths: readonly number[]): string => `units mm
sheet skin = steel thickness 1.5 radius 2 k 0.4
strip floor of skin from (0, 0, 400) heading back across right 300 {
${legs}
panel p4 120 falling 2 deg
}
shop "true" { marks within 0.1  bends within 0.5 deg }
made floor standing on p1 {
bend p0 p1 reads 38 deg  bend p1 p2 reads 38 deg  bend p2 p3 reads 38 deg  bend p3 p4 reads 38 deg
${lengths.map((length, i) => `panel p${i + 1} measures ${length} over outside`).join('\n')}
tape within 0.1
}
`;
    const scatter = (lengths: readonly number[]): readonly string[] =>
      found(text(lengths), 'made/scatter').map(({ message }) => message);
    const even = scatter([120.5, 120.5, 120.5]);
    expect(even.filter((message) => message.includes('marks within'))).toEqual([]);
    const wide = scatter([120.5, 121.1, 119.9]);
    expect(wide.filter((message) => /3 taped legs .* `marks within 0\.\d+ mm`/.test(message))).toHaveLength(1);
  });
});
