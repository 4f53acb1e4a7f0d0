import type { Vec2 } from './vec.js';

/** A place inside a ring: the middle of the widest run across the middle of its height. */
export const insidePlace = (ring: readonly Vec2[]): Vec2 => {
  const heights = ring.map(([, y]) => y);
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  let best: { readonly at: Vec2; readonly width: number } | undefined;
  for (const share of [0.5, 0.3, 0.7, 0.15, 0.85]) {
    const y = low + (high - low) * share;
    const crossings = ring
      .flatMap((p, i) => {
        const q = ring[(i + 1) % ring.length];
        return p[1] <= y !== q[1] <= y ? [p[0] + ((q[0] - p[0]) * (y - p[1])) / (q[1] - p[1])] : [];
      })
      .sort((a, b) => a - b);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const width = crossings[i + 1] - crossings[i];
      if (!best || width > best.width * 1.2) best = { at: [(crossings[i] + crossings[i + 1]) / 2, y], width };
    }
  }
  return best?.at ?? ring[0];
};
