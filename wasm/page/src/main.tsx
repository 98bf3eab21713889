import { render } from 'preact';
import './style.css';
import { App } from './ui/App';
import { openLink } from './files';
import { put } from './store';

const root = document.getElementById('app')!;
render(<App />, root);
performance.mark('first-plan');
void openLink();
addEventListener('hashchange', () => void openLink());
// What goes wrong unseen is said.
addEventListener('error', (event) => put({ notice: `Something went wrong: ${event.message}` }));
addEventListener('unhandledrejection', (event) => put({ notice: `Something went wrong: ${event.reason}` }));
