/** Draws a new badge by lot: the badge itself for badges.yaml, shown this once, and its digest for people.yaml. */
import { randomBytes } from 'node:crypto';
import { base32crockford } from '@scure/base';
import { badgeDigest } from '../../kiosk/sighting-of';

const USAGE =
  'Usage: npm run -s stowcall -- badge  draws a new badge and prints the lines for badges.yaml and people.yaml.';
/** 80 random bits as 16 characters of Crockford's Base 32. */
export function drawBadge(): string {
  return base32crockford.encode(randomBytes(10));
}

/** Resolves to the exit code: 0 when a badge was drawn, 2 for a wrong call. */
export function runBadge(args: readonly string[]): Promise<number> {
  if (args.length > 0) {
    console.error(USAGE);
    return Promise.resolve(2);
  }
  const badge = drawBadge();
  console.log(`badges.yaml  badge: '${badge}'`);
  console.log(`people.yaml  badges: ['${badgeDigest(badge)}']`);
  console.error(
    'Keep badges.yaml secret, and print the badge with "labels". Nothing served may hold the badge itself.',
  );
  return Promise.resolve(0);
}
