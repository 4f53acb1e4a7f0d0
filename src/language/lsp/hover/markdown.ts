/**
 * Text of the builder as Markdown shows it letter for letter: no picture is fetched, no link is made and no tag is read out
 * of what somebody wrote into a file. Lines stay lines.
 */
export const literally = (text: string): string =>
  text.replace(/[\\`*_{}[\]()<>#+\-.!|&~:/@=^$"']/g, (sign) => `\\${sign}`);
