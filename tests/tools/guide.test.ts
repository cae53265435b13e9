/** The guide and README.md: every link and picture leads somewhere, and what they say of commands is so. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import { COMMAND_NAMES, type CommandName } from '../../src/domain/command';
import { COUNT_NOUNS } from '../../src/domain/procedure';
import { keyLabel } from '../../src/screens/parts/keys';
import { readPhraseBook } from '../../src/tools/commands/read-phrases';
import { runStowcall } from '../../src/tools/stowcall';

const ROOT = join(import.meta.dirname, '../..');
const GUIDE = 'public/guide';
const NAMES = readdirSync(join(ROOT, GUIDE)).filter((name) => name.endsWith('.html'));
const PAGES = NAMES.map((name) => `${GUIDE}/${name}`);
const PICTURES = readdirSync(join(ROOT, GUIDE, 'pictures'));
/** All of it is stored for offline use at the first visit. */
const TOTAL_BYTES = 1_000_000;
const PICTURE_BYTES = 90_000;

const read = (file: string): string => readFileSync(join(ROOT, file), 'utf8');
const all = (text: string, pattern: RegExp): readonly string[] =>
  [...text.matchAll(pattern)].map(([, one = '']) => one);

function plainText(html: string): string {
  const named: Readonly<Record<string, string>> = { lt: '<', gt: '>', quot: '"', nbsp: ' ', amp: '&' };
  return html.replace(/<[^>]+>/g, '').replace(/&(\w+);/g, (whole, name: string) => named[name] ?? whole);
}

/** Targets inside a page, as `href`, `src` or in Markdown. */
function targetsOf(file: string): readonly string[] {
  const text = read(file);
  if (file.endsWith('.md')) return all(text, /\]\(([^)\s]+)\)/g);
  return all(text, /\s(?:href|src)="([^"]*)"/g);
}

/** Why a target leads nowhere; null where it leads to a file or a place in a page. The kiosk itself is at "/". */
function whyNowhere(file: string, target: string): string | null {
  if (target === '/') return null;
  const [path = '', fragment] = target.split('#');
  const to = path === '' ? file : normalize(join(dirname(file), path));
  if (!statSync(join(ROOT, to), { throwIfNoEntry: false })?.isFile()) return `${target}: there is no ${to}`;
  if (fragment === undefined) return null;
  return read(to).includes(` id="${fragment}"`) ? null : `${target}: nothing in ${to} has that id`;
}

describe.each([...PAGES, 'README.md'])('%s', (file) => {
  it('leads somewhere with every link and picture', () => {
    const targets = targetsOf(file);
    expect(targets.length).toBeGreaterThan(5);
    expect(targets.flatMap((target) => whyNowhere(file, target) ?? [])).toEqual([]);
  });
});

describe('a link that leads nowhere', () => {
  it.each(['no-such-page.html', 'holds.html#no-such-place', 'pictures/no-such.webp', 'https://example.org/'])(
    'is found: %s',
    (target) => {
      expect(whyNowhere(`${GUIDE}/index.html`, target)).not.toBeNull();
    },
  );
});

describe.each(PAGES)('%s', (page) => {
  const html = read(page);
  const text = plainText(html).replace(/\s+/g, ' ');

  it('says before all else that nobody may pack by what is shipped, and who comes first', () => {
    const heading = html.indexOf('<h1');
    const caution = html.indexOf('class="caution"');
    expect(caution).toBeGreaterThan(heading);
    expect(html.slice(heading, caution)).not.toContain('<p>');
    for (const sentence of [
      'They are invented, for demonstration only, and must not be used to pack a parachute.',
      'A loft writes its own procedures from the manufacturer’s current instructions.',
      'Local rules and the judgement of licensed riggers and inspectors come first.',
      'The kiosk assists and does not certify.',
    ]) {
      expect(text).toContain(sentence);
    }
  });

  it('leads back to the kiosk, and to every other page', () => {
    expect(html).toContain('<a href="/">Back to the kiosk</a>');
    for (const name of NAMES) expect(html, name).toContain(`href="${name}"`);
  });

  it('has its language, one heading of the first level, and no level left out below it', () => {
    expect(html).toMatch(/<html lang="en-GB">/);
    const levels = all(html, /<h([1-6])/g).map(Number);
    expect(levels.filter((level) => level === 1)).toEqual([1]);
    levels.forEach((level, index) => expect(level).toBeLessThanOrEqual((levels[index - 1] ?? 0) + 1));
  });

  it('has no script, no style of its own, and nothing from another origin', () => {
    expect(html).not.toMatch(/<script|<style|\sstyle=|\son[a-z]+=|https?:/);
  });

  it('describes every picture in words', () => {
    for (const [image] of html.matchAll(/<img[^>]*>/g)) expect(image).toMatch(/\salt="[^"]{30,}"/);
  });
});

describe('the pictures of the guide', () => {
  it('are all shown on some page', () => {
    const shown = new Set(PAGES.flatMap(targetsOf));
    expect(PICTURES.filter((name) => !shown.has(`pictures/${name}`))).toEqual([]);
  });

  it('are small enough to be stored by every kiosk', () => {
    const sizes = PICTURES.map((name) => statSync(join(ROOT, GUIDE, 'pictures', name)).size);
    expect(Math.max(...sizes)).toBeLessThan(PICTURE_BYTES);
    const pages = readdirSync(join(ROOT, GUIDE), { withFileTypes: true }).filter((entry) => entry.isFile());
    const whole = pages.map(({ name }) => statSync(join(ROOT, GUIDE, name)).size);
    expect([...sizes, ...whole].reduce((sum, size) => sum + size, 0)).toBeLessThan(TOTAL_BYTES);
  });

  it('are as large as the page says, so that nothing jumps while they load', () => {
    for (const page of PAGES) {
      for (const [image, name = '', width, height] of read(page).matchAll(
        /<img\s+src="pictures\/([^"]+)"\s+width="(\d+)"\s+height="(\d+)"/g,
      )) {
        expect(sizeOfWebp(readFileSync(join(ROOT, GUIDE, 'pictures', name))), image).toEqual([
          Number(width),
          Number(height),
        ]);
      }
    }
  });
});

/** Width and height from the header of an extended WebP file (RFC 9649, section 2.7). */
function sizeOfWebp(bytes: Buffer): readonly number[] {
  expect(bytes.toString('latin1', 8, 16)).toBe('WEBPVP8X');
  return [bytes.readUIntLE(24, 3) + 1, bytes.readUIntLE(27, 3) + 1];
}

describe('commands for the shell', () => {
  const printed: string[] = [];
  const keep = (line: string): void => void printed.push(line);
  afterEach(() => vi.restoreAllMocks());

  async function output(args: readonly string[]): Promise<readonly string[]> {
    printed.length = 0;
    vi.spyOn(console, 'log').mockImplementation(keep);
    vi.spyOn(console, 'error').mockImplementation(keep);
    await runStowcall(args);
    return [...printed];
  }

  it.each([...PAGES, 'README.md'])('exist where %s names them', async (file) => {
    const text = file.endsWith('.html') ? plainText(read(file)) : read(file);
    const usage = await output([]);
    const known = usage.flatMap((line) => /^ {2}([\w-]+) /.exec(line)?.[1] ?? []);
    expect(known).toContain('lint');
    const named = all(text, /stowcall -- ([\w-]+)/g);
    expect(named.filter((name) => !known.includes(name))).toEqual([]);
    const { scripts } = JSON.parse(read('package.json')) as { readonly scripts: Readonly<Record<string, string>> };
    const run = all(text, /npm (?:run (?:-s )?)?([a-z]+(?::[a-z]+)*)/g).filter((name) => name !== 'run');
    expect(run.filter((name) => scripts[name] === undefined)).toEqual([]);
  });

  it.each([...PAGES, 'README.md'].filter((file) => /^\$ /m.test(plainText(read(file)))))(
    'print what %s shows',
    async (file) => {
      const text = file.endsWith('.html') ? plainText(read(file)) : read(file);
      const examples = [...text.matchAll(/^\$ npm run -s stowcall -- (.*)\n((?:(?!\$ |```|\n).+\n?)+)/gm)];
      expect(examples.length).toBeGreaterThan(0);
      for (const [, words = '', shown = ''] of examples) {
        const lines = await output(words.trim().split(' '));
        const wanted = shown
          .trim()
          .split('\n')
          .filter((line) => line.trim() !== '...');
        expect(lines.filter((line) => wanted.includes(line))).toEqual(wanted);
      }
    },
  );
});

describe('the table of all commands', () => {
  const table = /<table class="commands">[\s\S]*?<\/table>/.exec(read(`${GUIDE}/packing.html`))?.[0] ?? '';
  const body = table.replace(/<thead>[\s\S]*<\/thead>/, '');
  const rows = all(body, /<tr>([\s\S]*?)<\/tr>/g).map((row) => {
    const [says = '', key = ''] = all(row, /<t[hd][^>]*>([\s\S]*?)<\/t[hd]>/g).map((cell) =>
      plainText(cell).replace(/\s+/g, ' ').trim(),
    );
    return { says, key };
  });

  const book = readPhraseBook(ROOT);

  function commandOf(words: string): CommandName | null {
    const understood = book.understand({ commands: COMMAND_NAMES, nouns: COUNT_NOUNS }, words);
    return understood.kind === 'command' ? understood.command.name : null;
  }

  it('has a phrase that is understood for each of them, once', () => {
    expect(rows.map(({ says }) => commandOf(says)).sort()).toEqual([...COMMAND_NAMES].sort());
  });

  it('names the key of each', () => {
    const labels = rows.map(({ says }) => {
      const name = commandOf(says);
      return name === null ? null : keyLabel(name);
    });
    expect(rows.map(({ key }) => key)).toEqual(labels);
  });
});

describe('the table of settings', () => {
  it('names every key of loft.yaml, and no other', () => {
    const table = /<table class="settings">[\s\S]*?<\/table>/.exec(read(`${GUIDE}/your-loft.html`))?.[0] ?? '';
    const heads = all(table, /<th scope="row">([\s\S]*?)<\/th>/g).join(' ');
    const keys = Object.keys(parse(read('demo-data/loft.yaml')) as object);
    expect([...all(heads, /<code>(\w+)<\/code>/g)].sort()).toEqual(keys.sort());
  });
});
