/** The pieces of a text: comments, texts in quotes, numbers, words, signs and white space. Together they are the text. */
export const piecesOf = (text: string): string[] =>
  text.match(/\/\/[^\n\r]*|\/\*[\s\S]*?\*\/|"[^"\n]*"|\d+(?:\.\d+)?(?:[eE][+-]?\d+)?|[A-Za-z_]\w*|\s+|[\s\S]/g) ?? [];

export const isNumber = (piece: string): boolean => /^\d/.test(piece);
export const isWord = (piece: string): boolean => /^[A-Za-z_]/.test(piece);

/** Numbers at which arithmetic and geometry change their ways, and those that no builder writes. */
export const ODD_NUMBERS: readonly string[] = [
  ...['0', '1', '2', '3', '0.001', '0.0011', '0.05', '0.051', '0.1', '0.5', '1e-3', '1e-6', '1e-9', '1e-12', '1e-300'],
  ...['45', '60', '89.999', '90', '90.001', '120', '150', '179.9', '180', '270', '359.99', '360'],
  ...['99', '100', '101', '255', '256', '999', '1000', '1001', '2000', '10000', '10001', '65536', '99999', '100000'],
  ...['100001', '1e6', '1e7', '1e9', '1e13', '1e21', '1e100', '1e308', '1e309', '1e400', '4294967296', '5/0', '0/5'],
];

/** What builders write. */
export const PLAIN_NUMBERS: readonly string[] =
  '0 1 1.2 1.5 2 3 4 5 8 10 12 14 15 18 20 25 30 40 50 60 70 80 90 100 110 120 140 150 180 200 250 300 310 400 460 640'.split(
    ' ',
  );
