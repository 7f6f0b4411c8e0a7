import { TRACE_SCHEMA } from './trace.ts';

const text = { type: 'string' } as const;
const number = { type: 'number' } as const;
const object = (properties: Readonly<Record<string, object>>, more: object = {}): object => ({
  type: 'object',
  properties,
  required: Object.keys(properties),
  additionalProperties: false,
  ...more,
});
const list = (items: object): object => ({ type: 'array', items });
const orNull = (schema: object): object => ({ anyOf: [schema, { type: 'null' }] });
const error = { error: text, message: text };

const NODE = object({
  symbol: text,
  name: text,
  quantity: text,
  value: { type: ['number', 'string'], description: 'In SI, in `unit`; or a text' },
  unit: text,
  shown: object({ value: { type: ['number', 'string'] }, unit: text }),
  origin: {
    enum: ['expression', 'solved', 'assumption', 'entry', 'input'],
    description:
      'expression: calculated by `expression` from the nodes in `from`. solved: found by iteration, integration or from a published table, from nothing but the nodes in `from`. assumption: in force. entry: of a register, or a choice. input: handed over.',
  },
  expression: orNull({
    ...text,
    description:
      'Numbers, symbols of earlier nodes, + - * / ^, min max ceil floor sqrt ln exp abs, if(a < b, x, y), PI',
  }),
  from: list(text),
  assumption: orNull(object({ name: text, low: number, high: number })),
  words: text,
  kind: text,
  source: text,
  citation: text,
});

/** JSON Schema of what `calc --trace` writes. */
export const TRACE_JSON_SCHEMA = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'The working of formulas, to be calculated again from this file alone',
  ...object({
    schema: { const: TRACE_SCHEMA },
    engine: object({ name: text, version: text }),
    formulas: list(
      object({
        formula: text,
        values: list(list({ anyOf: [{ type: ['number', 'string', 'boolean', 'null'] }, object(error)] })),
        calls: list(
          object({
            function: text,
            arguments: { type: 'array', description: 'As the cells held them' },
            fingerprint: {
              ...text,
              description: 'Of the assumptions that depart from the defaults; empty where none does',
            },
            items: list({
              anyOf: [
                object({
                  item: { type: 'integer', minimum: 0 },
                  result: orNull({ ...text, description: 'Symbol of the node that is the value' }),
                  nodes: list(NODE),
                  hash: {
                    ...text,
                    pattern: '^[0-9a-f]{64}$',
                    description:
                      'SHA-256 of a line for each node: symbol, origin, expression or nothing, symbols of `from` with commas between, value; tabs between, a line feed behind, UTF-8; a number as the sixteen hexadecimal digits of its IEEE 754 double, most significant first',
                  },
                }),
                object({ item: { type: 'integer', minimum: 0 }, ...error }),
              ],
            }),
            itemsLeftOut: { type: 'integer', minimum: 0 },
          }),
        ),
      }),
    ),
  }),
} as const;
