/** How a device comes to trust the shop's authority, what that means, and how to undo it. Needs nothing from the shop. */
import { trustText } from "../text/trust.ts";

export function TrustPage() {
  return (
    <main className="trust-page">
      <h1>{trustText.title}</h1>
      <p className="lead">{trustText.lead}</p>
      <div className="actions">
        <a href="/coatwright-authority.crt" className="button wet">
          {trustText.get}
        </a>
        <a href={`https://${location.host}/pair`} className="button second wet">
          {trustText.next}
        </a>
      </div>
      <p>{trustText.compare}</p>
      {trustText.ways.map(({ name, steps, undo }) => (
        <details key={name} className="more" open={likely(name)}>
          <summary>{name}</summary>
          <ol>
            {steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
          <p>
            <b>{trustText.undo}: </b>
            {undo} {trustText.entry}
          </p>
        </details>
      ))}
      <p className="hint">{trustText.practice}</p>
      <section>
        <h2>{trustText.meaningTitle}</h2>
        {trustText.meaning.map((one) => (
          <p key={one}>{one}</p>
        ))}
      </section>
    </main>
  );
}

/** Which steps stand open first; the others are a press away. */
function likely(name: string): boolean {
  const { userAgent } = navigator;
  if (/Android/.test(userAgent)) return name === "Android";
  if (/iPhone|iPad/.test(userAgent)) return name === "iPhone and iPad";
  return name === "A computer";
}
