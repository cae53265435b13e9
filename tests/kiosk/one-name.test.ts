/** One name of this machine for one journal. */
import { describe, expect, it } from 'vitest';
import { otherName } from '../../src/kiosk/one-name';

describe('the name under which the page was opened', () => {
  it.each(['localhost', 'kiosk.example'])('%s may begin', (hostname) => {
    expect(otherName({ hostname, port: '4173' })).toBeNull();
  });

  it.each(['127.0.0.1', '127.0.0.53', '[::1]'])('%s would be a second journal', (hostname) => {
    expect(otherName({ hostname, port: '4173' })?.text).toContain('http://localhost:4173/');
    expect(otherName({ hostname, port: '' })?.text).toContain('http://localhost/ ');
  });
});
