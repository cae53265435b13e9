/** PINs by WebCrypto, against a published value, and there and back. */
import { describe, expect, it } from 'vitest';
import { pinFits, slowHash, storePin } from '../../../src/kiosk/pin/slow-hash';

describe('the slow hash', () => {
  it('is PBKDF2 with HMAC-SHA-256 (first 32 bytes of the example in RFC 7914, section 11)', async () => {
    const hash = await slowHash('passwd', new TextEncoder().encode('salt'), 1);
    expect(Buffer.from(hash).toString('hex')).toBe('55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc');
  });

  it('keeps a PIN so that it fits itself alone, each time with another salt', async () => {
    const [stored, again] = await Promise.all([storePin('482913'), storePin('482913')]);
    expect(stored).toMatch(/^pbkdf2-sha256\$600000\$/);
    expect(again).not.toBe(stored);
    expect(stored).not.toContain('482913');
    expect(await pinFits('482913', stored)).toBe(true);
    expect(await pinFits('482914', stored)).toBe(false);
  });

  it('fits nothing to a stored form that is none', async () => {
    expect(await pinFits('482913', '')).toBe(false);
    expect(await pinFits('482913', '482913')).toBe(false);
  });
});
