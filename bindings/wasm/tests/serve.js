// A server of static files on this machine only: `node tests/serve.js <folder> [port]`.
import { createReadStream, existsSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize, resolve } from "node:path";
import { fileURLToPath } from "node:url";

const types = {
  ".css": "text/css",
  ".html": "text/html",
  ".js": "text/javascript",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".toml": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
};

/** Serves a folder on 127.0.0.1; port 0 takes any free one. */
export function serve(folder, port = 0) {
  const root = resolve(folder);
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url, "http://127.0.0.1");
    // Normalised from the root, a path cannot climb above it.
    let path = join(root, normalize(decodeURIComponent(pathname)));
    if (existsSync(path) && statSync(path).isDirectory()) path = join(path, "index.html");
    if (!path.startsWith(root) || !existsSync(path)) {
      response.writeHead(404).end("not found");
      return;
    }
    const type = types[extname(path)] ?? "application/octet-stream";
    response.writeHead(200, { "content-type": type, "cache-control": "no-cache" });
    createReadStream(path).pipe(response);
  });
  return new Promise((done) => {
    server.listen(port, "127.0.0.1", () => done(server));
  });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const server = await serve(process.argv[2] ?? ".", Number(process.argv[3] ?? 8080));
  console.log(`http://127.0.0.1:${server.address().port}/`);
}
