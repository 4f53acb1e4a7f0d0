/**
 * How many cases an oracle runs: `few` in `npm test`, as many as asked for in `npm run verify -- --cases N`, which runs every test
 * file that imports this. `share` is for what one case in N costs much more: a share of 0.3 runs 300 of 1000.
 */
export const casesOf = (few: number, share = 1): number => {
  const asked = Number(process.env.TUBWRIGHT_CASES ?? 0);
  return asked > 0 ? Math.max(few, Math.round(asked * share)) : few;
};
