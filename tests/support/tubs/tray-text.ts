/** A tray of one strip and two upright sides, welded: what it holds can be reckoned by hand. `rest`: further statements. */
export const trayText = ({
  rim = '60',
  inside = '300',
  fall = '1 deg',
  rest = '',
}: Partial<Readonly<Record<'rim' | 'inside' | 'fall' | 'rest', string>>>): string => `units mm
tub "Drip tray"
let rim = ${rim}
let inside = ${inside}
let fall = ${fall}
sheet skin = stainless 18 ga  radius 1.2
strip floor of skin from (0, 300, rim) heading front across right inside {
    panel back  to z 10 falling 90 deg
    panel base  300 falling fall
    panel front to z rim rising 90 deg
}
side left  of skin closes floor.left  up to rim
side right of skin closes floor.right up to rim
seam left floor { weld tig }
seam right floor { weld tig }
${rest}
`;
