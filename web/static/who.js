// Choosing who is working takes effect at once.
export function rememberWho() {
  const choice = document.getElementById("who");
  choice?.addEventListener("change", () => { if (choice.value) choice.form.submit(); });
}
