// Runs the program on a copy of a build file, so that the example itself stays as it is.
import { spawn } from "node:child_process";
import { copyFile, mkdtemp, rm } from "node:fs/promises";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";

const kPatience_ms = 15_000;

function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.on("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

/** Opens a copy of `file`; gives the page's address. `close` ends this program and removes the copy. */
export async function openProgram(binary, file) {
  const folder = await mkdtemp(join(tmpdir(), "rigwright-build-"));
  const copy = join(folder, basename(file));
  await copyFile(file, copy);
  const port = await freePort();
  const program = spawn(binary, ["open", copy, "--no-browser", "--port", String(port)], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let said = "";
  for (const stream of [program.stdout, program.stderr]) {
    stream.on("data", (piece) => {
      said += piece;
    });
  }
  const ended = new Promise((resolve) => program.on("exit", resolve));
  const close = async () => {
    program.kill();
    await ended;
    await rm(folder, { recursive: true, force: true });
  };
  const url = `http://127.0.0.1:${port}/`;
  for (const start = Date.now(); ; ) {
    try {
      await fetch(`${url}api/build`);
      return { url, copy, close };
    } catch (error) {
      if (program.exitCode !== null || Date.now() - start > kPatience_ms) {
        await close();
        throw new Error(`The program did not come up: ${said}`, { cause: error });
      }
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  }
}
