import { describe, expect, test, vi } from "vitest";
import { jobQueue, type Work } from "./job-queue.ts";

/** Work that ends when the test says so. */
function heldWork() {
  const ends: ((error?: Error) => void)[] = [];
  const work = vi.fn<Work>(
    ({ signal }) =>
      new Promise<void>((resolve, reject) => {
        ends.push((error) => (error ? reject(error) : resolve()));
        signal.addEventListener("abort", () => reject(new Error("stopped")));
      }),
  );
  return { work, ends };
}

function queue(atOnce = 1) {
  const seen: string[] = [];
  return { seen, jobs: jobQueue({ atOnce, changed: ({ id, state }) => seen.push(`${id} ${state}`) }) };
}

describe("jobs", () => {
  test("wait their turn", async () => {
    const { jobs, seen } = queue();
    const { work, ends } = heldWork();
    expect(jobs.start("a", work).state).toBe("working");
    expect(jobs.start("b", work).state).toBe("waiting");
    ends[0]!();
    await vi.waitFor(() => expect(jobs.find("b")?.state).toBe("working"));
    expect(jobs.find("a")).toEqual({ id: "a", state: "done", progress: 1, failure: null, refusal: null });
    expect(seen).toEqual(["a working", "a done", "b working"]);
  });

  test("one that fails says why and makes room for the next", async () => {
    const { jobs } = queue();
    const { work, ends } = heldWork();
    jobs.start("a", work);
    jobs.start("b", work);
    ends[0]!(new Error("the picture is cut short"));
    await vi.waitFor(() => expect(jobs.find("b")?.state).toBe("working"));
    expect(jobs.find("a")).toMatchObject({ state: "failed", failure: "the picture is cut short" });
  });

  test("one cancelled while it waits never starts", async () => {
    const { jobs } = queue();
    const { work, ends } = heldWork();
    jobs.start("a", work);
    jobs.start("b", work);
    expect(jobs.cancel("b")?.state).toBe("cancelled");
    ends[0]!();
    await vi.waitFor(() => expect(jobs.find("a")?.state).toBe("done"));
    expect(work).toHaveBeenCalledOnce();
    expect(jobs.cancel("b")?.state).toBe("cancelled");
    expect(jobs.cancel("never heard of")).toBeNull();
  });

  test("a finished one stays finished", async () => {
    const { jobs } = queue();
    jobs.start("a", async () => {});
    await vi.waitFor(() => expect(jobs.find("a")?.state).toBe("done"));
    expect(jobs.cancel("a")?.state).toBe("done");
  });

  test("closing stops all of them and waits until they let go", async () => {
    const { jobs, seen } = queue();
    const { work } = heldWork();
    jobs.start("a", work);
    jobs.start("b", work);
    await jobs.close();
    expect(seen).toEqual(["a working", "a cancelled", "b cancelled"]);
  });
});
