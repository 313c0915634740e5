import { readFileSync } from "node:fs";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { pocketPage } from "./tools/pocket-page.mjs";

const { version } = JSON.parse(readFileSync(new URL("package.json", import.meta.url), "utf8"));

export default defineConfig({
  define: { COATWRIGHT_VERSION: JSON.stringify(version) },
  root: "src/web",
  plugins: [react(), pocketPage()],
  build: {
    outDir: "../../dist/web",
    emptyOutDir: true,
    target: "es2022",
    rolldownOptions: {
      input: { index: "src/web/index.html", "service-worker": "src/web/offline/service-worker.ts" },
      output: {
        // One file for the first page: a browser asks for six at a time, and each further turn costs a slow network half a second.
        codeSplitting: {
          groups: [
            { name: "kept-reads", test: /src\/web\/offline\/kept-/, priority: 2 },
            { name: "first-page", test: /src\/web\/app\.tsx$/, priority: 1 },
          ],
        },
        // The worker's reach is the folder it lies in, and its name must not change.
        entryFileNames: ({ name }) => (name === "service-worker" ? "[name].js" : "assets/[name]-[hash].js"),
      },
    },
  },
});
