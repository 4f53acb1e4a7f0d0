/** What a name may look like, for those that look at text rather than at tokens; the letters are those of `ID` in the grammar. */

/** A sign of a name, as a part of a pattern with the flag `u`. */
export const NAME_SIGN = String.raw`[\p{L}\p{M}\p{Nd}_]`;

/** How names are told to a builder. */
export const NAME_RULE = 'names are made of letters, digits and _';

/** The same letters typed in two ways, as one sign or as a letter and its accent, are one name. */
export const composed = (name: string): string => name.normalize('NFC');
