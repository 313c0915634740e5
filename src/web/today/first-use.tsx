/** An empty shop: the ways to begin, and only those that exist. */
import { useMutation } from "@tanstack/react-query";
import type { ReactNode } from "react";
import { Link } from "wouter";
import { demoOpened } from "../../api/shop.ts";
import { Trouble } from "../parts/trouble.tsx";
import { useMe } from "../sharing/sharing-queries.ts";
import { ask } from "../shop/ask.ts";
import { todayText } from "../text/today.ts";

export function FirstUse() {
  const me = useMe().data;
  return (
    <main>
      <h1>{todayText.firstUse}</h1>
      {me && me.device.role !== "owner" ? <p className="lead">{todayText.firstUseElsewhere}</p> : <Beginnings />}
    </main>
  );
}

function Beginnings() {
  const demo = useMutation({
    mutationFn: () => ask(demoOpened, "/api/demo", { method: "POST" }),
    onSuccess: ({ url }) => location.assign(url),
  });
  return (
    <>
      <p className="lead">{todayText.firstUseMore}</p>
      <Trouble error={demo.error} />
      <div className="beginnings">
        <Beginning title={todayText.demo} explain={todayText.demoMore}>
          <button type="button" onClick={() => demo.mutate()} disabled={demo.isPending}>
            {demo.isPending ? todayText.demoMaking : todayText.demoGo}
          </button>
        </Beginning>
        <Beginning title={todayText.start} explain={todayText.startMore}>
          <Link href="/trials/new" className="button second">
            {todayText.startGo}
          </Link>
        </Beginning>
        <Beginning title={todayText.notebook} explain={todayText.notebookMore}>
          <Link href="/import" className="button second">
            {todayText.notebookGo}
          </Link>
        </Beginning>
      </div>
    </>
  );
}

function Beginning({ title, explain, children }: { title: string; explain: string; children: ReactNode }) {
  return (
    <section className="beginning">
      <div>
        <h2>{title}</h2>
        <p>{explain}</p>
      </div>
      {children}
    </section>
  );
}
