/** What reliefs are made by, mm. */
export interface Metal {
  readonly thickness: number;
  /** Width of a relief slot: the thickness, or the shop's narrowest cut where that is wider. */
  readonly cut: number;
}
