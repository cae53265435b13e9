/** `export-schema`: the JSON Schema of one line of an export, made from the very schemas that the kiosk reads with. */
import { writeFileSync } from 'node:fs';
import { z } from 'zod';
import { CHECKPOINT, END, EXPORT_FORMAT, HEADER, SEAL } from '../../record/chain/export-file';
import { BODY_SCHEMAS, ENVELOPE_SCHEMA } from '../../record/chain/fact-schema';

const OUT = 'public/stowcall-export.schema.json';

/** Each line of the file is one of these. What a schema cannot say (order, hashes, signatures) the verifier checks. */
export function exportLineSchema(): object {
  const bodies = Object.values(BODY_SCHEMAS) as unknown as [z.ZodObject, ...z.ZodObject[]];
  const fact = z.strictObject({ ...ENVELOPE_SCHEMA.shape, body: z.discriminatedUnion('kind', bodies) });
  const of = (schema: z.ZodType): object => {
    const made = z.toJSONSchema(schema, { target: 'draft-7', unrepresentable: 'any' });
    return Object.fromEntries(Object.entries(made).filter(([name]) => name !== '$schema'));
  };
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: `One line of a Stowcall export, version ${EXPORT_FORMAT}`,
    description:
      'First the header, then one line for each fact, one seal for each fact in the same order, one line for each ' +
      'checkpoint, and at the end the SHA-256 of all bytes before it. Every line is canonical JSON (RFC 8785).',
    oneOf: [HEADER, fact, SEAL, CHECKPOINT, END].map(of),
  };
}

/** Writes it; resolves to the exit code. */
export function runExportSchema(): Promise<number> {
  writeFileSync(OUT, `${JSON.stringify(exportLineSchema(), null, 2)}\n`);
  console.log(OUT);
  return Promise.resolve(0);
}
