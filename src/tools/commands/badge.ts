/** Draws a new badge by lot: the badge itself for badges.yaml, shown this once, and its digest for people.yaml. */
import { randomInt } from 'node:crypto';
import { badgeDigest } from '../../kiosk/sighting-of';

const USAGE =
  'Usage: npm run -s stowcall -- badge  draws a new badge and prints the lines for badges.yaml and people.yaml.';
/** Crockford base 32. */
const CHARACTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

/** 80 random bits as 16 characters. */
export function drawBadge(): string {
  return Array.from({ length: 16 }, () => CHARACTERS.charAt(randomInt(CHARACTERS.length))).join('');
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
