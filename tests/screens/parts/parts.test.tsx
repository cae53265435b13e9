/** What several screens share: camera picture, level, figures, words. */
import { describe, expect, it } from 'vitest';
import { LiveLevel } from '../../../src/screens/parts/live-level';
import { LevelBar } from '../../../src/screens/parts/StatusBar';
import { Figure } from '../../../src/screens/parts/Figure';
import { Words } from '../../../src/screens/parts/Words';
import { renderToStaticMarkup } from 'react-dom/server';
import { draw, readable, statusBarOf } from '../drawn';
import { fixture } from '../named';

describe('camera picture', () => {
  it.each([
    ['troubled', 'The camera does not work. Use the hand scanner.'],
    ['loading', 'The camera is off. Use the hand scanner.'],
  ])('says what to use in its place: %s', (statusBar, words) => {
    const text = readable(draw(fixture('identify'), statusBarOf(statusBar)));
    expect(text).toContain(words);
    expect(text).not.toContain('inside the frame');
  });
});

describe('small pieces', () => {
  it('keeps the level inside its bar whatever comes in', () => {
    const width = (level: number): string =>
      /level-now" width="(\d+)"/.exec(
        renderToStaticMarkup(
          <LiveLevel value={level}>
            <LevelBar />
          </LiveLevel>,
        ),
      )?.[1] ?? '';
    expect([-1, 0, 0.42, 1, 7].map(width)).toEqual(['0', '0', '42', '100', '100']);
  });

  it.each([
    [{ value: 1.25, unit: 'in' }, '1 1/4 in'],
    [{ value: 0.0625, unit: 'in' }, '1/16 in'],
  ] as const)('draws a fraction upright and says it as text', (quantity, words) => {
    const markup = renderToStaticMarkup(<Figure quantity={quantity} />);
    expect(markup).toContain(`<span class="unseen">${words}</span>`);
    expect(markup).toContain('<span class="fraction-over">1</span>');
  });

  it.each([
    [{ value: 42, unit: 'in' }, '42 in'],
    [{ value: 30.5, unit: 'cm' }, '30.5 cm'],
    [{ value: -2, unit: 'mm' }, '-2 mm'],
  ] as const)('draws other lengths plainly', (quantity, words) => {
    expect(readable(renderToStaticMarkup(<Figure quantity={quantity} />))).toBe(words);
  });

  it('keeps serials and lengths in one piece and changes no word', () => {
    const sentence = 'Container, serial QH-K-0093. It is 45 1/2 in, not 30.5 cm, since 2026-11-25.';
    const markup = renderToStaticMarkup(<Words text={sentence} />);
    expect(readable(markup)).toBe(sentence);
    expect([...markup.matchAll(/class="whole">([^<]*)</g)].map((match) => match[1])).toEqual([
      'QH-K-0093',
      '45 1/2 in',
      '30.5 cm',
      '2026-11-25',
    ]);
  });
});
