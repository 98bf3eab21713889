// The folder of this file over HTTP, for this machine only: `node serve.mjs [port]`. `/` is the page.
import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { dirname, extname, join, normalize, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const folder = dirname(fileURLToPath(import.meta.url));
const port = Number(process.argv[2] ?? 8080);
const TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.wasm': 'application/wasm',
  '.json': 'application/json',
  '.ts': 'text/plain; charset=utf-8',
};

const server = createServer((request, response) => {
  const path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
  const file = normalize(path === '/' ? join(folder, 'page/dist/index.html') : join(folder, path));
  const type = TYPES[extname(file)];
  if (!file.startsWith(folder + sep) || !type || !statSync(file, { throwIfNoEntry: false })?.isFile()) {
    response.writeHead(404).end('not there');
    return;
  }
  response.writeHead(200, { 'content-type': type, 'x-content-type-options': 'nosniff' });
  createReadStream(file).pipe(response);
});
server.listen(port, '127.0.0.1', () => console.log(`http://127.0.0.1:${server.address().port}/`));
