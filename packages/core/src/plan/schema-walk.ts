import { z } from 'zod';

/** A schema as zod keeps it. */
export type Schema = z.core.$ZodType;

type Def = z.core.$ZodTypeDef & {
  innerType?: Schema;
  in?: Schema;
  options?: readonly Schema[];
  shape?: Readonly<Record<string, Schema>>;
  valueType?: Schema;
  element?: Schema;
  entries?: Readonly<Record<string, string>>;
  values?: readonly unknown[];
};
const defOf = (schema: Schema): Def => schema._zod.def as Def;

/** The plain schemas that a schema may stand for: unions opened, wrappers taken off. */
function layers(schema: Schema): Schema[] {
  const def = defOf(schema);
  if (def.type === 'union') return def.options!.flatMap(layers);
  if (def.type === 'pipe') return layers(def.in!);
  return def.innerType === undefined ? [schema] : layers(def.innerType);
}

function schemasAt(schema: Schema, path: readonly PropertyKey[]): Schema[] {
  return path.reduce<Schema[]>(
    (at, key) =>
      at.flatMap(layers).flatMap((layer) => {
        const { type, shape, valueType, element } = defOf(layer);
        if (type === 'object') return Object.hasOwn(shape!, key) ? shape![String(key)]! : [];
        return (type === 'record' ? valueType : type === 'array' ? element : undefined) ?? [];
      }),
    [schema],
  );
}

/** Keys known at a path of a schema. */
export const keysAt = (schema: Schema, path: readonly PropertyKey[]): string[] => [
  ...new Set(
    schemasAt(schema, path)
      .flatMap(layers)
      .flatMap((layer) => Object.keys(defOf(layer).shape ?? {})),
  ),
];

/** A value that a schema takes at a path, from its examples or its choices; undefined where it has none. */
export function sampleAt(schema: Schema, path: readonly PropertyKey[]): unknown {
  for (const layer of schemasAt(schema, path).flatMap(layers)) {
    const { type, entries, values } = defOf(layer);
    if (type === 'enum') return Object.values(entries!)[0];
    if (type === 'literal') return values![0];
    const meta = z.globalRegistry.get(layer) as
      | { examples?: unknown[]; anyOf?: { examples?: unknown[] }[] }
      | undefined;
    const examples = meta?.examples ?? meta?.anyOf?.find((choice) => choice.examples !== undefined)?.examples;
    if (examples !== undefined) return examples[0];
  }
  return undefined;
}
