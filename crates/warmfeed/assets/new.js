// A new build: what is said of the answers follows them as they are given. The server says it all; without
// this file the button does the same.

import { speak } from "./page.js";

const form = document.getElementById("new");
let wanted;
let asked = 0;

/** Sends the answers as they stand and takes over what is said of them; the fields stay as they are. */
async function look() {
  const mine = ++asked;
  const body = new URLSearchParams(new FormData(form));
  body.set("do", "look");
  let fresh;
  try {
    const answer = await fetch(form.action, { method: "POST", body, headers: { accept: "text/html" } });
    if (!answer.ok) return;
    fresh = new DOMParser().parseFromString(await answer.text(), "text/html");
  } catch {
    return; // The button is still there, and tells what is wrong.
  }
  if (mine !== asked) return;
  for (const part of fresh.querySelectorAll("#verdict, #make, .says")) {
    const old = document.getElementById(part.id);
    if (!old || old.outerHTML === part.outerHTML || old.contains(document.activeElement)) continue;
    for (const open of old.querySelectorAll("details[id][open]")) {
      const same = part.querySelector("#" + CSS.escape(open.id));
      if (same) same.open = true;
    }
    const field = part.id.replace(/^says-/, "");
    if (part.classList.contains("says")) {
      const input = document.getElementById(field);
      if (part.firstElementChild) input?.setAttribute("aria-invalid", "true");
      else input?.removeAttribute("aria-invalid");
    }
    old.replaceWith(document.adoptNode(part));
    if (part.id === "verdict") speak(part.dataset.says);
  }
}

function soon(delay) {
  clearTimeout(wanted);
  wanted = setTimeout(look, delay);
}

form.addEventListener("change", () => soon(0));
form.addEventListener("input", () => soon(500));
