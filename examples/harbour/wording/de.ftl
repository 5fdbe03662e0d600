### Was dieser Kurs in jeder Stunde sagt, die für ihn entworfen wird.

greeting =
    .a = Guten Abend, und willkommen zurück in der Musikschule am Hafen.
    .b = Guten Abend. Kommen Sie herein vom Kai, und packen Sie Ihr Instrument aus.
sign-off =
    .a = Bringen Sie nächste Woche mit, was Sie auf Ihrem Instrument gefunden haben.
    .b = Achten Sie auf die Stufen am Heimweg, und singen Sie sie.
