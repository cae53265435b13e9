/** What a command prints, to either end. */
import { vi } from 'vitest';

/** Takes what is printed from now on, until the mocks are restored. */
export function hearConsole(): string[] {
  const said: string[] = [];
  for (const end of ['log', 'error'] as const) {
    vi.spyOn(console, end).mockImplementation((text: string) => void said.push(text));
  }
  return said;
}
