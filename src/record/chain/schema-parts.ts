/** Parts that the schemas of stored facts are made of; every text and list has its bound. */
import { z } from 'zod';
import { UNITS } from '../../domain/quantity';

// The page's Content-Security-Policy forbids code made from text, which zod would otherwise try.
z.config({ jitless: true });

/** SHA-256 in lower-case hex. */
export const hexDigest = z.string().regex(/^[0-9a-f]{64}$/);
export const id = z.string().min(1).max(200);
export const line = z.string().max(2_000);
export const count = z.int().min(0).max(1_000_000);
export const measure = z.number().min(-1e9).max(1e9);
export const quantity = z.strictObject({ value: measure, unit: z.enum(UNITS) });
export const date = z.iso.date();
export const list = <T extends z.ZodType>(item: T) => z.array(item).max(1_000);
