/**
 * What people choose first, written down from memory of the lists of leaked passwords, with the words of this work.
 * Compared after digits and signs at the ends and digits for letters are taken away.
 */
export const COMMON_WORDS: ReadonlySet<string> = new Set(
  `password passwort passwords passw pass passe passphrase motdepasse contrasena senha heslo haslo geheim secret letmein
  welcome willkommen admin administrator root user guest login access master monkey dragon football baseball basketball
  soccer hockey iloveyou loveyou sunshine princess shadow superman batman michael jordan jennifer jessica thomas daniel
  andrew joshua charlie ashley nicole michelle matthew robert hunter ranger buster tigger ginger pepper cookie chocolate
  cheese banana summer winter spring autumn january february march april june july august september october november
  december monday tuesday wednesday thursday friday saturday sunday computer internet server freedom whatever trustno
  starwars pokemon flower hello changeme default temporary temp test testing qwerty qwertz azerty qwertyuiop asdfgh
  asdfghjkl zxcvbn zxcvbnm qazwsx qazwsxedc abc abcdef abcdefg abcdefgh
  hospital clinic ward nurse doctor patient picc catheter catheters veinwright vein veins line central central line
  medicine medical health healthcare insertion inserter infusion dressing lead oncology surgery theatre intensive care
  correcthorsebatterystaple thisisapassword thisismypassword mypassword iamtheadministrator opensesame`
    .split(/\s+/)
    .filter((word) => word.length > 2),
);
