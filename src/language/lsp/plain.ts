/** A number for people: at most `digits` after the point, no trailing zeros, no minus zero. */
export const plain = (value: number, digits = 1): string => String(Number(value.toFixed(digits)) + 0);

/** rad as degrees. */
export const degrees = (angle: number, digits = 1): string => `${plain((angle * 180) / Math.PI, digits)}°`;
