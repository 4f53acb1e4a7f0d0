/** Columns for a terminal: words to the left, numbers to the right, two blanks between; an empty table is empty text. */
export const textTable = (heads: readonly string[], rows: readonly (readonly string[])[]): string => {
  if (rows.length === 0) return '';
  const lines = [heads, ...rows];
  const widths = heads.map((_, column) => Math.max(...lines.map((line) => [...line[column]].length)));
  const isNumeric = heads.map((_, column) => rows.every((row) => /^-?[\d.]*$/.test(row[column])));
  const cell = (text: string, column: number): string => {
    const fill = ' '.repeat(widths[column] - [...text].length);
    return isNumeric[column] ? fill + text : text + fill;
  };
  return lines.map((line) => line.map(cell).join('  ').trimEnd()).join('\n');
};
