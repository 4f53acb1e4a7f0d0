/** As much of a JSON Schema as our own have. */
export interface JsonSchema {
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly items?: JsonSchema | readonly JsonSchema[];
  readonly anyOf?: readonly JsonSchema[];
  readonly enum?: readonly (string | number)[];
  readonly const?: string | number;
  readonly additionalProperties?: JsonSchema | boolean;
}

export interface JsonField {
  /** `parts[].flat.width_mm`. */
  readonly path: string;
  readonly type: string;
  readonly meaning: string;
}

/** Every field of what a schema describes, in its order, those inside others after them. */
export const fieldsOf = (schema: JsonSchema, path = ''): readonly JsonField[] => {
  const own = path === '' ? [] : [{ path, type: typeOf(schema), meaning: schema.description ?? '' }];
  return [...own, ...insideOf(schema, path)];
};

const insideOf = (schema: JsonSchema, path: string): readonly JsonField[] => {
  if (schema.anyOf) return schema.anyOf.flatMap((each) => insideOf(each, path));
  const { items } = schema;
  if (items && !isTuple(items)) return insideOf(items, `${path}[]`);
  return Object.entries(schema.properties ?? {}).flatMap(([name, inner]) =>
    fieldsOf(inner, path === '' ? name : `${path}.${name}`),
  );
};

const isTuple = (items: JsonSchema | readonly JsonSchema[]): items is readonly JsonSchema[] => Array.isArray(items);

const typeOf = (schema: JsonSchema): string => {
  if (schema.anyOf) return [...new Set(schema.anyOf.map(typeOf))].join(' or ');
  if (schema.enum) return schema.enum.map((value) => `\`${value}\``).join(', ');
  if (schema.const !== undefined) return `\`${schema.const}\``;
  const { items } = schema;
  if (items && isTuple(items)) return `${items.length} of ${items.map(typeOf)[0] ?? 'nothing'}`;
  if (items) return `list of ${typeOf(items)}`;
  return schema.type ?? 'anything';
};
