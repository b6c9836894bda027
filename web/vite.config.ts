import { defineConfig } from "vite";

export default defineConfig({
  base: "/",
  build: {
    outDir: "../src/trimwright/app/page",
    emptyOutDir: true,
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    // the bench, and what pairs a phone with it: the latter is shown to phones that are not yet
    rollupOptions: { input: ["index.html", "pair.html"] },
    target: "es2022",
  },
});
