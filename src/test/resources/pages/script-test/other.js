export let changes = 1;
