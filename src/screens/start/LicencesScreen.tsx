/** The licences of everything that the kiosk is built from. */
import type { ReactElement } from 'react';
import type { Licence } from '../contract/licences-view';
import { Sheet } from '../parts/Sheet';

interface LicencesScreenProps {
  readonly licences: readonly Licence[];
  readonly leave: () => void;
}

export function LicencesScreen({ licences, leave }: LicencesScreenProps): ReactElement {
  return (
    <main className="body">
      <Sheet look="licences">
        <h1>Licences</h1>
        {licences.map(({ name, version, licence, text }) => (
          <details key={`${name} ${version}`} className="licence">
            <summary>
              <strong>{name}</strong> {version} <span className="licence-kind">{licence}</span>
            </summary>
            <pre>{text}</pre>
          </details>
        ))}
      </Sheet>
      <section className="commands" aria-label="Commands">
        <div className="commands-main">
          <button type="button" className="command command-main" onClick={leave}>
            <span className="command-label">Back to the start</span>
          </button>
        </div>
      </section>
    </main>
  );
}
