/**
 * SHA-256 (FIPS 180-4) for the verifier: not the writer's, and without making an object for each of millions of hashes,
 * which would cost more than the hashing.
 */

/** Fractional parts of the cube roots of the first 64 primes (FIPS 180-4, 4.2.2). */
const K = new Int32Array(64);
/** Fractional parts of the square roots of the first eight primes (5.3.3). */
const H = new Int32Array(8);

function fill(): void {
  let found = 0;
  for (let n = 2; found < 64; n += 1) {
    let prime = true;
    for (let d = 2; d * d <= n; d += 1) if (n % d === 0) prime = false;
    if (!prime) continue;
    if (found < 8) H[found] = root(n, 2n);
    K[found] = root(n, 3n);
    found += 1;
  }
}

/** The first 32 bits behind the point of the square or cube root of n, exactly. */
function root(n: number, degree: 2n | 3n): number {
  const scaled = BigInt(n) << (32n * degree);
  let low = 0n;
  let high = 1n << 40n;
  while (high - low > 1n) {
    const middle = (low + high) / 2n;
    if (middle ** degree <= scaled) low = middle;
    else high = middle;
  }
  return Number(BigInt.asIntN(32, low));
}

fill();

export class Sha256 {
  private readonly state = new Int32Array(8);
  private readonly words = new Int32Array(64);
  private readonly block = new Uint8Array(64);
  private held = 0;
  private length = 0;

  /** Begins anew. */
  begin(): this {
    this.state.set(H);
    this.held = 0;
    this.length = 0;
    return this;
  }

  /** Takes one byte in. */
  byte(value: number): this {
    this.block[this.held] = value;
    this.held += 1;
    this.length += 1;
    if (this.held === 64) this.turn(this.block, 0);
    return this;
  }

  /** Takes the bytes from `from` up to `to` in. */
  take(bytes: Uint8Array, from = 0, to = bytes.length): this {
    this.length += to - from;
    let at = from;
    if (this.held > 0) {
      const fits = Math.min(64 - this.held, to - at);
      for (let i = 0; i < fits; i += 1) this.block[this.held + i] = bytes[at + i] ?? 0;
      this.held += fits;
      at += fits;
      if (this.held === 64) this.turn(this.block, 0);
    }
    for (; at + 64 <= to; at += 64) this.turn(bytes, at);
    for (; at < to; at += 1) {
      this.block[this.held] = bytes[at] ?? 0;
      this.held += 1;
    }
    return this;
  }

  /** Writes the hash into `out` at `at`; what comes next begins with `begin`. */
  end(out: Uint8Array, at = 0): void {
    const bits = this.length * 8;
    this.block[this.held] = 0x80;
    this.held += 1;
    if (this.held > 56) {
      this.block.fill(0, this.held);
      this.turn(this.block, 0);
    }
    this.block.fill(0, this.held);
    for (let i = 0; i < 8; i += 1) this.block[63 - i] = Math.floor(bits / 256 ** i) % 256;
    this.turn(this.block, 0);
    for (let i = 0; i < 32; i += 1) out[at + i] = ((this.state[i >> 2] ?? 0) >>> (24 - 8 * (i & 3))) & 0xff;
  }

  /** One block (FIPS 180-4, 6.2.2). */
  private turn(bytes: Uint8Array, from: number): void {
    const w = this.words;
    const s = this.state;
    this.held = 0;
    for (let t = 0, at = from; t < 16; t += 1, at += 4) {
      w[t] =
        ((bytes[at] ?? 0) << 24) | ((bytes[at + 1] ?? 0) << 16) | ((bytes[at + 2] ?? 0) << 8) | (bytes[at + 3] ?? 0);
    }
    for (let t = 16; t < 64; t += 1) {
      const x = w[t - 15] ?? 0;
      const y = w[t - 2] ?? 0;
      const s0 = ((x >>> 7) | (x << 25)) ^ ((x >>> 18) | (x << 14)) ^ (x >>> 3);
      const s1 = ((y >>> 17) | (y << 15)) ^ ((y >>> 19) | (y << 13)) ^ (y >>> 10);
      w[t] = ((w[t - 16] ?? 0) + s0 + (w[t - 7] ?? 0) + s1) | 0;
    }
    let a = s[0] ?? 0;
    let b = s[1] ?? 0;
    let c = s[2] ?? 0;
    let d = s[3] ?? 0;
    let e = s[4] ?? 0;
    let f = s[5] ?? 0;
    let g = s[6] ?? 0;
    let h = s[7] ?? 0;
    for (let t = 0; t < 64; t += 1) {
      const s1 = ((e >>> 6) | (e << 26)) ^ ((e >>> 11) | (e << 21)) ^ ((e >>> 25) | (e << 7));
      const t1 = (h + s1 + ((e & f) ^ (~e & g)) + (K[t] ?? 0) + (w[t] ?? 0)) | 0;
      const s0 = ((a >>> 2) | (a << 30)) ^ ((a >>> 13) | (a << 19)) ^ ((a >>> 22) | (a << 10));
      const t2 = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      h = g;
      g = f;
      f = e;
      e = (d + t1) | 0;
      d = c;
      c = b;
      b = a;
      a = (t1 + t2) | 0;
    }
    s[0] = ((s[0] ?? 0) + a) | 0;
    s[1] = ((s[1] ?? 0) + b) | 0;
    s[2] = ((s[2] ?? 0) + c) | 0;
    s[3] = ((s[3] ?? 0) + d) | 0;
    s[4] = ((s[4] ?? 0) + e) | 0;
    s[5] = ((s[5] ?? 0) + f) | 0;
    s[6] = ((s[6] ?? 0) + g) | 0;
    s[7] = ((s[7] ?? 0) + h) | 0;
  }
}

/** The hash of bytes, once. */
export function sha256(bytes: Uint8Array): Uint8Array {
  const out = new Uint8Array(32);
  new Sha256().begin().take(bytes).end(out);
  return out;
}

const DIGITS = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, '0'));

/** Hex of the 32 bytes at `at`. */
export function hexAt(bytes: Uint8Array, at = 0): string {
  let text = '';
  for (let i = at; i < at + 32; i += 1) text += DIGITS[bytes[i] ?? 0] ?? '';
  return text;
}
