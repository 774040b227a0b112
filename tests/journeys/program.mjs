// Runs the program on copies of build files, so that the examples themselves stay as they are.
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

/** Starts the program; resolves when it answers. */
async function start(binary, words, port) {
  const program = spawn(binary, [...words, "--no-browser", "--port", String(port)], {
    stdio: ["ignore", "pipe", "pipe"],
  });
  let said = "";
  for (const stream of [program.stdout, program.stderr]) {
    stream.on("data", (piece) => {
      said += piece;
    });
  }
  /** What it has printed so far. */
  const told = () => said;
  const ended = new Promise((resolve) => program.on("exit", resolve));
  const end = async (signal) => {
    program.kill(signal);
    await ended;
  };
  for (const begun = Date.now(); ; ) {
    try {
      await fetch(`http://127.0.0.1:${port}/api/shop`);
      return Object.assign(end, { told });
    } catch (error) {
      if (program.exitCode !== null || Date.now() - begun > kPatience_ms) {
        await end();
        throw new Error(`The program did not come up: ${said}`, { cause: error });
      }
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
  }
}

/** Serves copies of `files` from a folder of their own; `words` are more of the command. `stop` and `restart` are as the power going
 * and coming back; `close` ends the program and removes the folder. */
export async function openShop(binary, files, words = []) {
  const folder = await mkdtemp(join(tmpdir(), "rigwright-shop-"));
  const copies = files.map((file) => join(folder, basename(file)));
  await Promise.all(files.map((file, i) => copyFile(file, copies[i])));
  const port = await freePort();
  let end = await start(binary, ["serve", folder, ...words], port);
  return {
    url: `http://127.0.0.1:${port}/`,
    folder,
    copies,
    ids: copies.map((copy) => basename(copy).replace(/\.rig\.json$/, "")),
    told: () => end.told(),
    stop: () => end("SIGKILL"),
    restart: async () => {
      end = await start(binary, ["serve", folder, ...words], port);
    },
    close: async () => {
      await end();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** Opens a copy of one file; gives the page's address. */
export async function openProgram(binary, file) {
  const folder = await mkdtemp(join(tmpdir(), "rigwright-build-"));
  const copy = join(folder, basename(file));
  await copyFile(file, copy);
  const port = await freePort();
  const end = await start(binary, ["open", copy], port);
  const close = async () => {
    await end();
    await rm(folder, { recursive: true, force: true });
  };
  return { url: `http://127.0.0.1:${port}/`, copy, close };
}
