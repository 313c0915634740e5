/** The page. */
import { QueryClient, QueryClientProvider } from "@tanstack/react-query";
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { installPage } from "./offline/install-page.ts";
import { showKept } from "./offline/show-kept.ts";
import { Refused } from "./shop/ask.ts";

const client = new QueryClient({
  defaultOptions: {
    queries: {
      // The live line says when something changed; until then an answer stands.
      staleTime: 60_000,
      // What was refused will be refused again; silence may pass.
      retry: (failures, error) => !(error instanceof Refused) && failures < 2,
      // A workshop's own network: never wait for the wider one.
      networkMode: "always",
    },
    mutations: { networkMode: "always" },
  },
});

showKept(client);

createRoot(document.getElementById("page")!).render(
  <QueryClientProvider client={client}>
    <App />
  </QueryClientProvider>,
);

installPage();
