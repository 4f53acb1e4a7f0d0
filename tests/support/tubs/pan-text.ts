/** A pan of one piece with a lip turned in on each side: no order bends it, and a keystroke has no time to show that. */
export const lippedPan = `units mm
tub "Pan"
sheet skin = stainless 18 ga radius 1.6
point A = (0, 0, 0)
point B = (320, 0, 0)
point C = (320, 200, 0)
point D = (0, 200, 0)
panel base of skin = A B C D
flange front on base[A B] turned up 90 deg by 80
flange right on base[B C] turned up 90 deg by 80
flange back  on base[C D] turned up 90 deg by 80
flange left  on base[D A] turned up 90 deg by 80
flange frontLip on front.end turned in 90 deg by 20
flange rightLip on right.end turned in 90 deg by 20
flange backLip  on back.end  turned in 90 deg by 20
flange leftLip  on left.end  turned in 90 deg by 20
`;
