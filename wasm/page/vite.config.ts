import { createHash } from 'node:crypto';
import preact from '@preact/preset-vite';
import { defineConfig, type Plugin } from 'vite';

const hash = (text: string) => `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`;

/** One HTML file with script and style inside, and a policy that lets nothing else in and nothing out. */
const oneFile = (): Plugin => ({
  name: 'one-file',
  enforce: 'post',
  generateBundle(_, bundle) {
    const html = Object.values(bundle).find((file) => file.fileName.endsWith('.html'));
    if (html?.type !== 'asset') return;
    let script = '';
    let style = '';
    for (const file of Object.values(bundle)) {
      if (file.type === 'chunk') script += file.code.replaceAll('</script', '<\\/script').replaceAll('<!--', '<\\!--');
      else if (file.fileName.endsWith('.css')) style += String(file.source).replaceAll('</style', '<\\/style');
      if (file !== html) delete bundle[file.fileName];
    }
    const policy = [
      "default-src 'none'",
      `script-src ${hash(script)} 'wasm-unsafe-eval'`,
      'worker-src blob:',
      `style-src ${hash(style)}`,
      'img-src data: blob:',
      "base-uri 'none'",
      "form-action 'none'",
    ].join('; ');
    html.source = String(html.source)
      .replace(/<script[^>]*><\/script>/g, '')
      .replace(/<link rel="stylesheet"[^>]*>/g, '')
      .replace(/<link rel="modulepreload"[^>]*>/g, '')
      .replace('<meta charset="utf-8" />', () => `<meta charset="utf-8" />\n    <meta http-equiv="Content-Security-Policy" content="${policy}" />`)
      .replace('</head>', () => `<style>${style}</style>\n  </head>`)
      .replace('</body>', () => `<script type="module">${script}</script>\n  </body>`);
  },
});

export default defineConfig({
  plugins: [preact(), oneFile()],
  base: './',
  build: {
    target: 'es2022',
    assetsInlineLimit: 1e8,
    cssCodeSplit: false,
    modulePreload: false,
    reportCompressedSize: false,
    rolldownOptions: { output: { codeSplitting: false } },
  },
});
