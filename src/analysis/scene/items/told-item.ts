/** The same as the picture, in words; a view shows all of them as a table. */
export interface Told {
  /** What it is, and its name. */
  readonly what: string;
  /** With their units; made from the rows and columns of the report where it tells the same. */
  readonly facts: readonly string[];
}

export interface ToldItem {
  readonly told: Told;
}
