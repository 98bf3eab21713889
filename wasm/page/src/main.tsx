import { render } from 'preact';
import './style.css';
import { App } from './ui/App';
import { Boundary } from './ui/Boundary';
import { openLink } from './files';
import { looked, put } from './store';
import { serve } from './worker';

function start(): void {
  // What goes wrong unseen is said.
  addEventListener('error', (event) => put({ notice: `Something went wrong: ${event.message}` }));
  addEventListener('unhandledrejection', (event) => put({ notice: `Something went wrong: ${event.reason}` }));
  try {
    looked();
  } catch {
    // What it stumbles over is met again where it is shown, and said there.
  }
  performance.mark('planned');
  render(
    <Boundary>
      <App />
    </Boundary>,
    document.getElementById('app')!,
  );
  performance.mark('shown');
  void openLink();
  addEventListener('hashchange', () => void openLink());
}

if (typeof document === 'undefined') serve();
else start();
