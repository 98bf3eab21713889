// Where something cannot be shown: says so instead of leaving the page blank.
import { Component, type ComponentChildren } from 'preact';
import { saveAll } from '../files';
import { startAfresh } from '../store';

interface BoundaryProps {
  /** Another one is tried anew. */
  of?: string;
  children: ComponentChildren;
}

interface Caught {
  error?: unknown;
  of?: string | undefined;
}

export class Boundary extends Component<BoundaryProps, Caught> {
  override state: Caught = {};

  override componentDidCatch(error: unknown): void {
    this.setState({ error: error ?? 'unknown', of: this.props.of });
  }

  override render({ of, children }: BoundaryProps, { error, of: failed }: Caught) {
    if (error === undefined || failed !== of) return children;
    const again = () => this.setState({ error: undefined });
    return (
      <section class="panel broken">
        <h1>This cannot be shown</h1>
        <p>
          Something in what is stored here keeps this part of the page from being shown, or the page itself has a fault. Nothing
          is lost: download everything, then try again, or begin afresh. What is stored is then kept aside, under Recipes.
        </p>
        <p class="faint">{error instanceof Error ? error.message : String(error)}</p>
        <div class="actions">
          <button type="button" class="go" onClick={saveAll}>
            Download everything
          </button>
          <button type="button" onClick={again}>
            Try again
          </button>
          <button
            type="button"
            onClick={() => {
              if (!confirm('Begin afresh? All recipes, benches and papers that are stored in this browser are put aside as they are.')) return;
              startAfresh();
              again();
            }}
          >
            Begin afresh
          </button>
        </div>
      </section>
    );
  }
}
