/** A basin that has one of most things, for tests of the editor's features. */
export const BASIN = `units mm
tub "Bottle-rinse basin"
use "shop.tub"

let inside = 460
let rim    = 250
let fall   = 3 deg
let half   = inside / 2

sheet skin = stainless 18 ga  radius 1.2
level within 0.5 deg

// One piece from the back to the front.
strip floor of skin from (0, 640, rim) heading front across right inside {
    panel back    60   falling 90 deg
    panel shelf  310   falling fall
    panel chute  120   falling 38 deg
    panel sump   110   falling fall
    panel front  to z rim  rising 80 deg
}

side leftCheek  of skin closes floor.left  up to rim
side rightCheek of skin closes floor.right up to rim

point A = (0, 640, rim)      point B = (inside, 640, rim)
point C = B + (0, 90, 8)     point D = A + (0, 90, 8)
panel apron of skin = A B C D
bend apron back  radius 2

seam leftCheek floor  { weld tig   gap at most 0.5 }
seam rightCheek floor { weld tig }

outlet drain in sump at center(sump) diameter 52 { lip 15 }
`;

export const SHOP = `units mm
shop "test shop" {
    press brake finger { force 25 ton  bed 800  die 12 16 25 40  punch radius 1  nose 30 deg  fingers 25 50 75 100 150  depth 90  opening 180 }
    stock stainless 18 ga 1220 by 2440
}
`;
