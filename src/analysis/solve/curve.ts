/** The choices between two goals as they are drawn and listed: plain data, numbers in the units of the shop. */
export interface Curve {
  readonly across: Axis;
  readonly up: Axis;
  /** By `across`. */
  readonly points: readonly CurvePoint[];
}

export interface Axis {
  /** As the builder wrote it: `least let rim`. */
  readonly wish: string;
  readonly unit: string;
}

export interface CurvePoint {
  readonly across: number;
  readonly up: number;
  readonly values: readonly { readonly name: string; readonly value: number; readonly text: string }[];
  /** The one that is best when the first goal counts more. */
  readonly isChosen: boolean;
}
