/** The shop's own rust models, and which of them a trial is read by. */
import { useMutation, useQuery, useQueryClient } from "@tanstack/react-query";
import * as z from "zod/mini";
import { type ChosenModel, chosenReading, listedModel } from "../../api/rust-model.ts";
import { ask, json } from "./ask.ts";

export const useRustModels = () =>
  useQuery({ queryKey: ["rust models"], queryFn: () => ask(z.array(listedModel), "/api/rust-models") });

const choicePath = (trial: string) => `/api/trials/${trial}/rust-model`;

export const useChosenModel = (trial: string) =>
  useQuery({ queryKey: ["rust model", trial], queryFn: () => ask(chosenReading, choicePath(trial)) });

export function useChooseModel(trial: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (choice: ChosenModel) => ask(chosenReading, choicePath(trial), json("PUT", choice)),
    onSettled: () =>
      Promise.all([
        client.invalidateQueries({ queryKey: ["rust model", trial] }),
        client.invalidateQueries({ queryKey: ["rust models"] }),
      ]),
  });
}
