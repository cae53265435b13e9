/** PINs: what may become one, and the form in which it is kept. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkNewPin, makeStoredPin, parseStoredPin, PIN_ITERATIONS } from '../../src/domain/pin';

const SALT = 'AAAAAAAAAAAAAAAAAAAAAA==';
const HASH = `${'A'.repeat(43)}=`;

describe('a new PIN', () => {
  it.each(['482913', '0000000001', '135791'])('%s is taken', (digits) => {
    expect(checkNewPin(digits)).toEqual({ ok: true, value: digits });
  });

  it.each(['48291', '48291348291', '48291a', 'a48291', '', '482 91'])(
    '"%s" is no row of six to ten digits',
    (digits) => {
      const detail = 'A PIN has 6 to 10 digits.';
      expect(checkNewPin(digits)).toEqual({ ok: false, reason: 'bad-pin', detail });
    },
  );

  it.each(['777777', '123456', '987654', '890123'])('%s can be guessed', (digits) => {
    const detail = 'This PIN is one digit or a run of digits. Choose another one.';
    expect(checkNewPin(digits)).toEqual({ ok: false, reason: 'bad-pin', detail });
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
    ['something before it', `a pbkdf2-sha256$600000$${SALT}$${HASH}`],
    ['something behind it', `pbkdf2-sha256$600000$${SALT}$${HASH} a`],
    ['the PIN itself', '482913'],
    ['nothing', ''],
  ])('with %s is refused', (_name, text) => {
    const detail = 'This is no stored PIN. Make one with "npm run -s stowcall -- pin".';
    expect(parseStoredPin(text)).toEqual({ ok: false, reason: 'bad-pin', detail });
  });

  it.each([PIN_ITERATIONS, 10_000_000])('with %i iterations is taken', (iterations) => {
    const stored = { iterations, salt: SALT, hash: HASH };
    expect(parseStoredPin(makeStoredPin(stored))).toEqual({ ok: true, value: stored });
  });
});
