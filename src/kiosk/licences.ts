/** Reads the third-party notices that the build has made. */
import { z } from 'zod';
import type { Licence } from '../screens/contract/licences-view';

const licencesSchema = z
  .array(z.object({ name: z.string(), version: z.string(), licence: z.string(), text: z.string() }))
  .max(2_000);

/** The notices; one entry that says so where they cannot be read. */
export async function fetchLicences(base: string): Promise<readonly Licence[]> {
  try {
    return licencesSchema.parse(await (await fetch(`${base}notices.json`)).json());
  } catch (error) {
    const text = `The notices cannot be read (${String(error)}). They are in the file notices.json of this build.`;
    return [{ name: 'Notices', version: '', licence: '', text }];
  }
}
