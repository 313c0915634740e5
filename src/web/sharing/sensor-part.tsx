/** A sensor of one site: its token is shown once, with what it sends. */
import { useMutation, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import { sensorLetIn } from "../../api/sharing.ts";
import { TextField } from "../parts/field.tsx";
import { Trouble } from "../parts/trouble.tsx";
import { ask, json } from "../shop/ask.ts";
import { errorAt } from "../shop/field-errors.ts";
import { sharingText } from "../text/sharing.ts";

export function SensorPart({ address }: { address: string }) {
  const [name, setName] = useState("");
  const [site, setSite] = useState("");
  const client = useQueryClient();
  const letIn = useMutation({
    mutationFn: () => ask(sensorLetIn, "/api/devices", json("POST", { name, site })),
    onSuccess: () => client.invalidateQueries({ queryKey: ["devices"] }),
  });
  return (
    <details className="more">
      <summary>{sharingText.sensorTitle}</summary>
      <p>{sharingText.sensorMore}</p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          letIn.mutate();
        }}
      >
        <TextField
          label={sharingText.sensorName}
          value={name}
          onType={setName}
          error={errorAt(letIn.error, "/name")}
          autoComplete="off"
        />
        <TextField
          label={sharingText.sensorSite}
          value={site}
          onType={setSite}
          error={errorAt(letIn.error, "/site")}
          autoComplete="off"
        />
        <Trouble error={letIn.error} shown={["/name", "/site"]} />
        <button type="submit" disabled={letIn.isPending}>
          {sharingText.sensorGo}
        </button>
      </form>
      {letIn.data && (
        <div role="status">
          <p>{sharingText.sensorToken}</p>
          <code className="fingerprint">{letIn.data.token}</code>
          <p>{sharingText.sensorExample}</p>
          <pre className="scroll">{sensorExample(address, letIn.data.device.site ?? "", letIn.data.token)}</pre>
        </div>
      )}
    </details>
  );
}

const sensorExample = (address: string, site: string, token: string) =>
  [
    `POST ${address}api/sites/${encodeURIComponent(site)}/readings`,
    `Authorization: Bearer ${token}`,
    "Content-Type: application/json",
    "",
    '[{"at": "2026-05-31T08:30:00+02:00", "tempC": 11.5, "rhPercent": 84}]',
  ].join("\n");
