/**
 * How far the edge of a plate opens between the places that hold it, mm. The edge passes on `reaction` N/mm all along; held only at
 * places `wide` mm wide and `pitch` apart, it moves by the difference between that and what these take. Of a load V cos kx along the free
 * edge of a wide plate, w = (A + C y) e^(-ky) cos kx without moment at the edge gives C = k A (1 - nu) / 2 and
 * A = 2 V / (D k3 (1 - nu) (3 + nu)); the loads of the places are a series of such, k = 2 pi n / pitch:
 * opening = 8 q / (D (1 - nu) (3 + nu)) (pitch / 2 pi)3 times the sum over odd n of sin(n pi w / p) / (n pi w / p) / n3.
 * Source: derived from S. Timoshenko, S. Woinowsky-Krieger, Theory of Plates and Shells, plates that are bent to a wave along an edge
 * (from memory).
 */
export const openingBetween = ({
  reaction,
  pitch,
  wide,
  rigidity,
  poisson,
}: {
  readonly reaction: number;
  readonly pitch: number;
  readonly wide: number;
  /** N mm. */
  readonly rigidity: number;
  readonly poisson: number;
}): number => {
  const share = Math.min(1, wide / pitch);
  let sum = 0;
  for (let n = 1; n <= TERMS; n += 2) {
    const turn = n * Math.PI * share;
    sum += (turn > 0 ? Math.sin(turn) / turn : 1) / n ** 3;
  }
  return ((8 * reaction) / (rigidity * (1 - poisson) * (3 + poisson))) * (pitch / (2 * Math.PI)) ** 3 * sum;
};

const TERMS = 39;
