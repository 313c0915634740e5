/** On, off, encrypted or plain; only at the machine itself, so that no device can weaken it for the others. */
import { useMutation, useQueryClient } from "@tanstack/react-query";
import { useState } from "react";
import { type SharingChoice, type SharingState, sharing, sharingWay } from "../../api/sharing.ts";
import { Trouble } from "../parts/trouble.tsx";
import { ask, json } from "../shop/ask.ts";
import { dateText } from "../text/parts.ts";
import { sharingText } from "../text/sharing.ts";

export function ShareSwitch({ state, atThisMachine }: { state: SharingState; atThisMachine: boolean }) {
  return (
    <section>
      <h2>{sharingText.wayTitle}</h2>
      {atThisMachine ? <Choice state={state} /> : <p>{sharingText.onlyHere}</p>}
      {state.certificate?.from === "a file" && (
        <p className="hint">{sharingText.ownCertificate(dateText(state.certificate.validUntil.slice(0, 10)))}</p>
      )}
      {state.on && <Addresses addresses={state.addresses} />}
    </section>
  );
}

function Choice({ state }: { state: SharingState }) {
  const [way, setWay] = useState(state.way);
  const client = useQueryClient();
  const choose = useMutation({
    mutationFn: (choice: SharingChoice) => ask(sharing, "/api/sharing", json("PUT", choice)),
    onSuccess: async (now) => {
      client.setQueryData(["sharing"], now);
      await client.invalidateQueries({ queryKey: ["me"] });
    },
  });
  const share = state.on ? sharingText.change(way) : sharingText.share;
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        choose.mutate({ on: true, way });
      }}
    >
      <fieldset className="sharing-ways">
        <legend className="sr-only">{sharingText.wayTitle}</legend>
        {sharingWay.options.map((one) => (
          <label key={one}>
            <input type="radio" name="way" checked={one === way} onChange={() => setWay(one)} />
            <span>
              <b>{sharingText.ways[one]}</b>
              <small>{sharingText.wayMore[one]}</small>
            </span>
          </label>
        ))}
      </fieldset>
      <Trouble error={choose.error} />
      <div className="actions">
        {(!state.on || way !== state.way) && (
          <button type="submit" className="wet" disabled={choose.isPending}>
            {share}
          </button>
        )}
        {state.on && (
          <button
            type="button"
            className="second wet"
            disabled={choose.isPending}
            onClick={() => choose.mutate({ on: false, way: state.way })}
          >
            {sharingText.stop}
          </button>
        )}
      </div>
      <p className="hint">{sharingText.stays}</p>
    </form>
  );
}

function Addresses({ addresses }: { addresses: readonly string[] }) {
  return (
    <details className="more">
      <summary>{sharingText.addresses}</summary>
      <ul className="bare">
        {addresses.map((one) => (
          <li key={one}>
            <code>{one}</code>
          </li>
        ))}
      </ul>
      <p className="hint">{sharingText.addressesMore}</p>
    </details>
  );
}
