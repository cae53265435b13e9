/** PINs: what may become one, and the form in which it is kept. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkNewPin, makeStoredPin, parseStoredPin, PIN_ITERATIONS } from '../../src/domain/pin';

const SALT = 'AAAAAAAAAAAAAAAAAAAAAA==';
const HASH = `${'A'.repeat(43)}=`;

describe('a new PIN', () => {
  it.each([
    ['482913', true],
    ['0000000001', true],
    ['48291', false],
    ['48291348291', false],
    ['48291a', false],
    ['', false],
    ['777777', false],
    ['123456', false],
    ['987654', false],
    ['890123', false],
  ])('%s: %s', (digits, isGood) => {
    expect(checkNewPin(digits).ok).toBe(isGood);
  });
});

describe('a stored PIN', () => {
  it('comes back as it was made', () => {
    const bytes = (length: number) =>
      fc.uint8Array({ minLength: length, maxLength: length }).map((all) => Buffer.from(all).toString('base64'));
    fc.assert(
      fc.property(
        fc.integer({ min: PIN_ITERATIONS, max: 10_000_000 }),
        bytes(16),
        bytes(32),
        (iterations, salt, hash) => {
          expect(parseStoredPin(makeStoredPin({ iterations, salt, hash }))).toEqual({
            ok: true,
            value: { iterations, salt, hash },
          });
        },
      ),
    );
  });

  it.each([
    ['fewer iterations than OWASP asks for', `pbkdf2-sha256$599999$${SALT}$${HASH}`],
    ['more than a table has time for', `pbkdf2-sha256$10000001$${SALT}$${HASH}`],
    ['another function', `scrypt$600000$${SALT}$${HASH}`],
    ['no salt', `pbkdf2-sha256$600000$$${HASH}`],
    ['a short hash', `pbkdf2-sha256$600000$${SALT}$${HASH.slice(1)}`],
    ['the PIN itself', '482913'],
    ['nothing', ''],
  ])('with %s is refused', (_name, text) => {
    expect(parseStoredPin(text)).toMatchObject({ ok: false, reason: 'bad-pin' });
  });
});
