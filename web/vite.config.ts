import react from "@vitejs/plugin-react";
import { defineConfig } from "vitest/config";

/** The mock, or the program: rigwright open FILE --no-browser --port 8731. */
const kProgram = "http://127.0.0.1:8731";

// File names carry no hash: the program embeds the built page under these names.
export default defineConfig({
  base: "./",
  plugins: [react()],
  build: {
    outDir: "dist",
    emptyOutDir: true,
    target: "es2022",
    cssCodeSplit: false,
    modulePreload: false,
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 2000,
    rolldownOptions: {
      output: {
        codeSplitting: false,
        entryFileNames: "page.js",
        assetFileNames: "page[extname]",
      },
    },
  },
  server: { port: 5173, proxy: { "/api": { target: kProgram, headers: { origin: kProgram } } } },
  test: { environment: "happy-dom", include: ["src/**/*.test.{ts,tsx}"] },
});
