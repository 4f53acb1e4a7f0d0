/**
 * Makes the JSON Schemas of what the command line prints from the types that declare it.
 * With --check nothing is written; it fails when a committed schema is not what its type gives.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const SCHEMAS = [
  { source: 'src/analysis/report/report.ts', type: 'Report', target: 'src/analysis/report/report.schema.json' },
  { source: 'src/language/cli/print/outcome.ts', type: 'SolveOutput', target: 'src/language/cli/solve.schema.json' },
  {
    source: 'src/language/cli/print/findings-json.ts',
    type: 'CheckOutput',
    target: 'src/language/cli/check.schema.json',
  },
  { source: 'src/language/cli/run.ts', type: 'FailureOutput', target: 'src/language/cli/failure.schema.json' },
];

const { config } = ts.readConfigFile(join(root, 'tsconfig.json'), ts.sys.readFile);
const { options } = ts.parseJsonConfigFileContent(config, ts.sys, root);
const program = ts.createProgram(
  SCHEMAS.map(({ source }) => join(root, source)),
  options,
);
const checker = program.getTypeChecker();

const commentOf = (symbol) => ts.displayPartsToString(symbol.getDocumentationComment(checker)) || undefined;

/** Sorted: the compiler gives them in the order in which it came across them. */
const valuesOf = (literals) => literals.map((type) => type.value).sort();

const anyOf = (types) => {
  const isLiteral = types.every((type) => type.isStringLiteral() || type.isNumberLiteral());
  if (isLiteral) return { enum: valuesOf(types) };
  const isBoolean = (type) => (type.flags & ts.TypeFlags.BooleanLiteral) !== 0;
  const rest = types.filter((type) => !isBoolean(type));
  const schemas = rest.map(schemaOf);
  if (rest.length < types.length) schemas.push({ type: 'boolean' });
  const literals = rest.filter((type) => type.isStringLiteral() || type.isNumberLiteral());
  const others = schemas.filter((_, i) => !literals.includes(rest[i]));
  const all = literals.length > 0 ? [{ enum: valuesOf(literals) }, ...others] : others;
  return all.length === 1 ? all[0] : { anyOf: all };
};

const objectOf = (type) => {
  const index = type.getStringIndexType();
  const properties = {};
  const required = [];
  for (const symbol of type.getProperties()) {
    const of = checker.getTypeOfSymbol(symbol);
    const comment = commentOf(symbol);
    properties[symbol.name] = { ...(comment ? { description: comment } : {}), ...schemaOf(of) };
    if ((symbol.flags & ts.SymbolFlags.Optional) === 0) required.push(symbol.name);
  }
  return { type: 'object', properties, required, additionalProperties: index ? schemaOf(index) : false };
};

const schemaOf = (type) => {
  if (type.flags & ts.TypeFlags.Null) return { type: 'null' };
  if (type.isUnion()) return anyOf(type.types.filter((one) => !(one.flags & ts.TypeFlags.Undefined)));
  if (type.isStringLiteral() || type.isNumberLiteral()) return { const: type.value };
  if (type.flags & ts.TypeFlags.String) return { type: 'string' };
  if (type.flags & ts.TypeFlags.Number) return { type: 'number' };
  if (type.flags & ts.TypeFlags.BooleanLike) return { type: 'boolean' };
  if (checker.isTupleType(type)) {
    const items = checker.getTypeArguments(type).map(schemaOf);
    return { type: 'array', items, additionalItems: false, minItems: items.length };
  }
  if (checker.isArrayType(type)) return { type: 'array', items: schemaOf(checker.getTypeArguments(type)[0]) };
  if (type.isClassOrInterface() || type.flags & (ts.TypeFlags.Object | ts.TypeFlags.Intersection))
    return objectOf(type);
  throw new Error(`no schema for ${checker.typeToString(type)}`);
};

const declared = (source, name) => {
  const symbol = checker.getSymbolAtLocation(program.getSourceFile(join(root, source)));
  const found = checker.getExportsOfModule(symbol).find((one) => one.name === name);
  return checker.getDeclaredTypeOfSymbol(found);
};

for (const { source, type, target } of SCHEMAS) {
  const schema = {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: type,
    ...schemaOf(declared(source, type)),
  };
  const text = `${JSON.stringify(schema, undefined, 2)}\n`;
  const file = join(root, target);
  if (!process.argv.includes('--check')) writeFileSync(file, text);
  else if (readFileSync(file, 'utf8') !== text) {
    console.error(`${target} is stale: run npm run schema`);
    process.exit(1);
  }
}
