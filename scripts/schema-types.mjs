// A JSON Schema, as scripts/schema.mjs writes them, as a type of TypeScript.

const indent = (text) => text.replaceAll('\n', '\n  ');

/** The type that a schema describes, in the words of TypeScript. */
export const typeOf = (schema) => {
  if ('const' in schema) return JSON.stringify(schema.const);
  if (schema.enum) return schema.enum.map((value) => JSON.stringify(value)).join(' | ');
  if (schema.anyOf) return schema.anyOf.map(typeOf).join(' | ');
  if (Array.isArray(schema.type)) return schema.type.map((type) => typeOf({ ...schema, type })).join(' | ');
  if (schema.type === 'array') return listOf(schema);
  if (schema.type === 'object') return recordOf(schema);
  if (schema.type === 'integer') return 'number';
  return schema.type ?? 'unknown';
};

const listOf = ({ items }) => {
  if (Array.isArray(items)) return `readonly [${items.map(typeOf).join(', ')}]`;
  return `readonly (${items ? typeOf(items) : 'unknown'})[]`;
};

const recordOf = ({ properties = {}, required = [], additionalProperties }) => {
  const rows = Object.entries(properties).map(([name, schema]) => {
    const note = schema.description ? `/** ${schema.description.replaceAll('*/', '* /')} */\n` : '';
    const key = /^\w+$/.test(name) ? name : JSON.stringify(name);
    return `${note}readonly ${key}${required.includes(name) ? '' : '?'}: ${typeOf(schema)};`;
  });
  if (additionalProperties && typeof additionalProperties === 'object') {
    const own = Object.values(properties).map(typeOf);
    const types = [...new Set([typeOf(additionalProperties), ...own])].join(' | ');
    rows.push(`readonly [name: string]: ${types};`);
  }
  return rows.length === 0 ? '{}' : `{\n  ${rows.map(indent).join('\n  ')}\n}`;
};
