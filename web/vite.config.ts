import { defineConfig } from "vite";

export default defineConfig({
  base: "/",
  build: {
    outDir: "../src/trimwright/app/page",
    emptyOutDir: true,
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    target: "es2022",
  },
});
