import { render } from 'preact';
import './style.css';
import { App } from './ui/App';
import { openLink } from './files';
import { looked, put } from './store';
import { serve } from './worker';

function start(): void {
  // What goes wrong unseen is said.
  addEventListener('error', (event) => put({ notice: `Something went wrong: ${event.message}` }));
  addEventListener('unhandledrejection', (event) => put({ notice: `Something went wrong: ${event.reason}` }));
  looked();
  performance.mark('planned');
  render(<App />, document.getElementById('app')!);
  performance.mark('shown');
  void openLink();
  addEventListener('hashchange', () => void openLink());
}

if (typeof document === 'undefined') serve();
else start();
