// A code that came with the address, as from the terminal's square, need not be typed.
const code = location.hash.slice(1);
if (/^[0-9]{8}$/.test(code)) {
  history.replaceState(null, "", location.pathname);
  document.getElementById("code").value = code;
  document.getElementById("pair").requestSubmit();
}
