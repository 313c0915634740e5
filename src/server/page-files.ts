/** The built page. Every address that is not the API's is a place in it: a reload or a bookmark opens there. */
import { existsSync } from "node:fs";
import { basename, join } from "node:path";
import files from "@fastify/static";
import type { FastifyInstance } from "fastify";
import { sendProblem } from "./problem-details.ts";

const firstAnswers = ["/api/trials", "/api/today"]
  .map((path) => `<${path}>; rel=preload; as=fetch; crossorigin`)
  .join(", ");

export async function servePage(app: FastifyInstance, webDir: string): Promise<void> {
  // From sources alone (tests of the API) there is no built page.
  const built = existsSync(join(webDir, "index.html"));
  if (built)
    await app.register(files, {
      root: webDir,
      cacheControl: false,
      // The build lays each file packed beside itself.
      preCompressed: true,
      setHeaders: (response, path) => {
        // Built files carry a hash of their content in the name; only the pages that name them change.
        const lasting = /-[\w-]{8,}\.\w+$/.test(basename(path.replace(/\.(br|gz)$/, "")));
        response.setHeader("cache-control", lasting ? "private, max-age=31536000, immutable" : "no-cache");
      },
    });
  // Asked for beside the script instead of after it: a slow network is spared one way there and back.
  app.addHook("onSend", async (request, reply) => {
    if (request.url === "/" && request.device) reply.header("link", firstAnswers);
  });
  app.setNotFoundHandler((request, reply) => {
    const path = request.url.split("?")[0] ?? "";
    const isPlace = request.method === "GET" && !path.startsWith("/api/") && !/\.\w+$/.test(path);
    if (built && isPlace) return reply.sendFile("index.html");
    return sendProblem(reply, { status: 404, detail: `nothing answers ${request.method} ${path}` });
  });
}
