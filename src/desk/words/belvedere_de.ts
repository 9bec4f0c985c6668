<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
<context>
<name>window</name>
<message><source>&amp;File</source><translation>&amp;Datei</translation></message>
<message><source>&amp;Edit</source><translation>&amp;Bearbeiten</translation></message>
<message><source>&amp;View</source><translation>&amp;Ansicht</translation></message>
<message><source>&amp;Help</source><translation>&amp;Hilfe</translation></message>
<message><source>&amp;Draw</source><translation>&amp;Zeichnen</translation></message>
<message><source>&amp;Open ...</source><translation>&amp;Öffnen ...</translation></message>
<message><source>Open &amp;recent</source><translation>&amp;Zuletzt bearbeitet</translation></message>
<message><source>&amp;Forget these</source><translation>Diese &amp;vergessen</translation></message>
<message><source>&amp;Save</source><translation>&amp;Speichern</translation></message>
<message><source>Save &amp;as ...</source><translation>Speichern &amp;unter ...</translation></message>
<message><source>&amp;Quit</source><translation>&amp;Beenden</translation></message>
<message><source>&amp;Undo</source><translation>&amp;Rückgängig</translation></message>
<message><source>&amp;Redo</source><translation>&amp;Wiederherstellen</translation></message>
<message><source>&amp;Undo: %1</source><translation>&amp;Rückgängig: %1</translation></message>
<message><source>&amp;Redo: %1</source><translation>&amp;Wiederherstellen: %1</translation></message>
<message><source>Show &amp;all</source><translation>&amp;Alles zeigen</translation></message>
<message><source>&amp;Nearer</source><translation>&amp;Näher</translation></message>
<message><source>&amp;Farther</source><translation>&amp;Weiter weg</translation></message>
<message><source>&amp;Blind zones</source><translation>&amp;Tote Zonen</translation></message>
<message><source>&amp;Other storeys</source><translation>Andere &amp;Geschosse</translation></message>
<message><source>&amp;Legend, scale and north</source><translation>&amp;Legende, Maßstab und Norden</translation></message>
<message><source>Reading and checking %1 ...</source><translation>%1 wird gelesen und geprüft ...</translation></message>
<message><source>Writing %1 ...</source><translation>%1 wird geschrieben ...</translation></message>
<message><source>%1 was not opened; what was open before still is.</source><translation>%1 wurde nicht geöffnet; was vorher offen war, ist es noch.</translation></message>
<message><source>List of ob&amp;jects</source><translation>Liste der Ob&amp;jekte</translation></message>
<message><source>List of &amp;findings</source><translation>Liste der &amp;Befunde</translation></message>
<message><source>&amp;Alternatives</source><translation>&amp;Varianten</translation></message>
<message><source>Objects</source><translation>Objekte</translation></message>
<message><source>Findings</source><translation>Befunde</translation></message>
<message><source>Alternatives</source><translation>Varianten</translation></message>
<message><source>Put away</source><translation>Weglegen</translation></message>
<message><source>&amp;Feet and inches</source><translation>&amp;Fuß und Zoll</translation></message>
<message><source>Light or dark as the s&amp;ystem</source><translation>Hell oder dunkel wie das S&amp;ystem</translation></message>
<message><source>&amp;Light</source><translation>&amp;Hell</translation></message>
<message><source>&amp;Dark</source><translation>&amp;Dunkel</translation></message>
<message><source>&amp;Help on this</source><translation>&amp;Hilfe dazu</translation></message>
<message><source>&amp;Commands by typing ...</source><translation>&amp;Befehle eintippen ...</translation></message>
<message><source>&amp;Shortcuts ...</source><translation>&amp;Tastenkürzel ...</translation></message>
<message><source>Survey</source><translation>Aufnahme</translation></message>
<message><source>Brief</source><translation>Aufgabe</translation></message>
<message><source>Layout</source><translation>Entwurf</translation></message>
<message><source>Services</source><translation>Technik</translation></message>
<message><source>Proof</source><translation>Nachweis</translation></message>
<message><source>Handover</source><translation>Übergabe</translation></message>
<message><source>s&amp;torey:</source><translation>G&amp;eschoss:</translation></message>
<message><source>s&amp;ituation:</source><translation>S&amp;ituation:</translation></message>
<message><source>Stop</source><translation>Anhalten</translation></message>
<message><source>proven</source><translation>nachgewiesen</translation></message>
<message><source>New design</source><translation>Neuer Entwurf</translation></message>
<message><source>Not saved</source><translation>Nicht gespeichert</translation></message>
<message><source>The design has changes that are not saved.</source><translation>Der Entwurf hat Änderungen, die nicht gespeichert sind.</translation></message>
<message><source>Changed on disk</source><translation>Auf der Platte geändert</translation></message>
<message><source>Saved.</source><translation>Gespeichert.</translation></message>
<message><source>The file cannot be used</source><translation>Die Datei ist nicht verwendbar</translation></message>
<message><source>Where</source><translation>Wo</translation></message>
<message><source>What is wrong</source><translation>Was nicht stimmt</translation></message>
<message><source>What to do</source><translation>Was zu tun ist</translation></message>
<message><source>&amp;Copy all</source><translation>Alles &amp;kopieren</translation></message>
<message><source>Close</source><translation>Schließen</translation></message>
<message><source>the file as a whole</source><translation>die Datei im Ganzen</translation></message>
<message><source>&amp;Recover</source><translation>&amp;Wiederherstellen</translation></message>
<message><source>&amp;Keep for later</source><translation>Für später &amp;aufheben</translation></message>
<message><source>&amp;Throw away</source><translation>&amp;Wegwerfen</translation></message>
<message><source>Take &amp;theirs</source><translation>&amp;Dessen Fassung nehmen</translation></message>
<message><source>Keep &amp;mine</source><translation>&amp;Meine behalten</translation></message>
<message><source>Another program has changed %1.</source><translation>Ein anderes Programm hat %1 geändert.</translation></message>
<message><source>“%1” was not saved when the program ended. It was kept as it stood on %2.</source><translation>„%1“ war nicht gespeichert, als das Programm endete. Aufgehoben ist der Stand vom %2.</translation></message>
<message><source>Name</source><translation>Name</translation></message>
<message><source>Id</source><translation>Kennung</translation></message>
<message><source>Kind</source><translation>Art</translation></message>
<message><source>Storey</source><translation>Geschoss</translation></message>
<message><source>Place</source><translation>Ort</translation></message>
<message><source>Result</source><translation>Ergebnis</translation></message>
<message><source>serves %1</source><translation>bedient %1</translation></message>
<message><source>%1 %2, alone %3</source><translation>%1 %2, allein %3</translation></message>
<message><source>preview: %1</source><translation>Vorschau: %1</translation></message>
<message><source>Filter: a name, a kind, a storey, a requirement</source><translation>Filter: ein Name, eine Art, ein Geschoss, eine Anforderung</translation></message>
<message><source>How grave</source><translation>Wie schwer</translation></message>
<message><source>Finding</source><translation>Befund</translation></message>
<message><source>About</source><translation>Wovon</translation></message>
<message><source>accepted</source><translation>hingenommen</translation></message>
<message><source>shortfall</source><translation>Mangel</translation></message>
<message><source>caution</source><translation>Vorsicht</translation></message>
<message><source>note</source><translation>Hinweis</translation></message>
<message><source>&amp;Reason</source><translation>&amp;Grund</translation></message>
<message><source>&amp;By</source><translation>&amp;Von</translation></message>
<message><source>&amp;Accept with this reason</source><translation>Mit diesem Grund &amp;hinnehmen</translation></message>
<message><source>Take &amp;back</source><translation>&amp;Zurücknehmen</translation></message>
<message><source>&amp;Go over to it</source><translation>&amp;Dorthin wechseln</translation></message>
<message><source>Make it the &amp;base</source><translation>Zur &amp;Grundlage machen</translation></message>
<message><source>&amp;Delete</source><translation>&amp;Löschen</translation></message>
<message><source>&amp;Keep the present state</source><translation>Jetzigen Stand &amp;aufheben</translation></message>
<message><source>&amp;Compare all</source><translation>Alle &amp;vergleichen</translation></message>
<message><source>&amp;Stop</source><translation>&amp;Anhalten</translation></message>
<message><source>Base</source><translation>Grundlage</translation></message>
<message><source>on the sheet</source><translation>auf dem Blatt</translation></message>
<message><source>Differs in</source><translation>Unterscheidet sich in</translation></message>
<message><source>No design is open</source><translation>Kein Entwurf ist offen</translation></message>
<message><source>New</source><translation>Neu</translation></message>
<message><source>An empty sheet</source><translation>Ein leeres Blatt</translation></message>
<message><source>Open a file ...</source><translation>Eine Datei öffnen ...</translation></message>
<message><source>From a picture of a plan ...</source><translation>Aus dem Bild eines Plans ...</translation></message>
<message><source>Worked on lately</source><translation>Zuletzt bearbeitet</translation></message>
<message><source>Examples</source><translation>Beispiele</translation></message>
<message><source>Draw a site, say what must be seen, and place what sees it. Begin with one of these.</source><translation>Einen Ort zeichnen, sagen, was zu sehen sein muss, und aufstellen, was es sieht. Ein Anfang ist eines von diesen.</translation></message>
<message><source>Commands</source><translation>Befehle</translation></message>
<message><source>a command, an object or a requirement</source><translation>ein Befehl, ein Objekt oder eine Anforderung</translation></message>
<message><source>requirement</source><translation>Anforderung</translation></message>
<message><source>Shortcuts</source><translation>Tastenkürzel</translation></message>
<message><source>Command</source><translation>Befehl</translation></message>
<message><source>Menu</source><translation>Menü</translation></message>
<message><source>Keys</source><translation>Tasten</translation></message>
<message><source>&amp;New keys:</source><translation>&amp;Neue Tasten:</translation></message>
<message><source>&amp;Set</source><translation>&amp;Setzen</translation></message>
<message><source>N&amp;one</source><translation>K&amp;eine</translation></message>
<message><source>&amp;As it was</source><translation>&amp;Wie vorher</translation></message>
<message><source>Help</source><translation>Hilfe</translation></message>
<message><source>Pages</source><translation>Seiten</translation></message>
<message><source>&amp;Plan as SVG or PNG ...</source><translation>&amp;Plan als SVG oder PNG ...</translation></message>
<message><source>Plan as P&amp;DF ...</source><translation>Plan als P&amp;DF ...</translation></message>
<message><source>&amp;Print ...</source><translation>&amp;Drucken ...</translation></message>
<message numerus="yes"><source>%n values</source><translation><numerusform>%n Wert</numerusform><numerusform>%n Werten</numerusform></translation></message>
<message numerus="yes"><source>%1 has %n problems. Nothing was opened; what was open before still is.</source><translation><numerusform>%1 hat %n Fehler. Nichts wurde geöffnet; was offen war, ist es noch.</numerusform><numerusform>%1 hat %n Fehler. Nichts wurde geöffnet; was offen war, ist es noch.</numerusform></translation></message>
<message><source>preview, spots %1 apart</source><translation>Vorschau, Punkte im Abstand %1</translation></message>
<message><source>preview, spots %1 apart; finer ones are coming</source><translation>Vorschau, Punkte im Abstand %1; feinere folgen</translation></message>
<message><source>Prints by the situation's &amp;light</source><translation>Abzüge im &amp;Licht der Situation</translation></message>
<message><source>focus</source><translation>Schärfe</translation></message>
<message><source>exposure</source><translation>Belichtung</translation></message>
<message><source>on its zone</source><translation>auf ihre Zone</translation></message>
<message><source>as stated</source><translation>wie angegeben</translation></message>
<message><source>Focus of %1</source><translation>Schärfe von %1</translation></message>
<message><source>Exposure of %1</source><translation>Belichtung von %1</translation></message>
<message><source>S&amp;un of the imager</source><translation>S&amp;onne des Bildsensors</translation></message>
<message><source>Sun</source><translation>Sonne</translation></message>
<message><source>The sun's year</source><translation>Das Sonnenjahr</translation></message>
<message><source>The sun's year in words</source><translation>Das Sonnenjahr in Worten</translation></message>
<message><source>Progress of the sun's year</source><translation>Fortschritt des Sonnenjahres</translation></message>
<message><source>The sun's year to a file</source><translation>Das Sonnenjahr in eine Datei</translation></message>
<message><source>Work it &amp;out</source><translation>&amp;Berechnen</translation></message>
<message><source>Stopped.</source><translation>Angehalten.</translation></message>
<message><source>Select an imager: its year of sun is drawn here.</source><translation>Wählen Sie einen Bildsensor: hier wird sein Sonnenjahr gezeichnet.</translation></message>
<message><source>The site has no place, so that nobody can tell where the sun stands. Its file says so under site/place: lat_deg, lon_deg and north_deg.</source><translation>Das Gelände hat keinen Ort, niemand weiß also, wo die Sonne steht. In der Datei steht er unter site/place: lat_deg, lon_deg und north_deg.</translation></message>
<message><source>What the sun does in a year is not worked out yet.</source><translation>Was die Sonne im Jahr tut, ist noch nicht berechnet.</translation></message>
<message><source>aperture</source><translation>Blende</translation></message>
<message><source>wide open</source><translation>ganz offen</translation></message>
<message><source>Aperture of %1</source><translation>Blende von %1</translation></message>
<message><source>mono</source><translation>schwarzweiß</translation></message>
<message><source>colour</source><translation>farbig</translation></message>
<message><source>, 1/%1 s</source><translation>, 1/%1 s</translation></message>
<message><source>, too little light</source><translation>, zu wenig Licht</translation></message>
<message><source>lens %1, tilt %2</source><translation>Objektiv %1, Neigung %2</translation></message>
<message><source>not in frame to %1</source><translation>nicht im Bild bis %1</translation></message>
<message><source>nowhere in frame</source><translation>nirgends im Bild</translation></message>
<message><source>&amp;Services</source><translation>&amp;Dienste</translation></message>
<message><source>&amp;Catalogue</source><translation>&amp;Katalog</translation></message>
<message><source>Catalogue</source><translation>Katalog</translation></message>
<message><source>Table of services</source><translation>Tabelle der Dienste</translation></message>
<message><source>%1, falls short</source><translation>%1, reicht nicht</translation></message>
<message><source>Being worked out.</source><translation>Wird ausgerechnet.</translation></message>
<message><source>Of the design before the last changes.</source><translation>Vom Entwurf vor den letzten Änderungen.</translation></message>
<message><source>Network</source><translation>Netz</translation></message>
<message><source>Power</source><translation>Strom</translation></message>
<message><source>Streams</source><translation>Ströme</translation></message>
<message><source>Recording</source><translation>Aufzeichnung</translation></message>
<message><source>Analytics</source><translation>Analyse</translation></message>
<message><source>Surroundings</source><translation>Umgebung</translation></message>
<message><source>Link</source><translation>Strecke</translation></message>
<message><source>From</source><translation>von</translation></message>
<message><source>To</source><translation>nach</translation></message>
<message><source>Cable</source><translation>Kabel</translation></message>
<message><source>may be</source><translation>höchstens</translation></message>
<message><source>of</source><translation>von</translation></message>
<message><source>cuts off</source><translation>trennt ab</translation></message>
<message><source>Part</source><translation>Teil</translation></message>
<message><source>fed by</source><translation>gespeist über</translation></message>
<message><source>from</source><translation>von</translation></message>
<message><source>day W</source><translation>Tag W</translation></message>
<message><source>night W</source><translation>Nacht W</translation></message>
<message><source>cold W</source><translation>kalt W</translation></message>
<message><source>start W</source><translation>Anlauf W</translation></message>
<message><source>gives W</source><translation>liefert W</translation></message>
<message><source>Note</source><translation>Anmerkung</translation></message>
<message><source>feeds %1</source><translation>speist %1</translation></message>
<message><source>standby %1 h: %2 Ah of %3</source><translation>Notstrom %1 h: %2 Ah von %3</translation></message>
<message><source>none</source><translation>keine</translation></message>
<message><source>class %1 on %2</source><translation>Klasse %1 an %2</translation></message>
<message><source>class %1</source><translation>Klasse %1</translation></message>
<message><source>%1 V of %2, from %3</source><translation>%1 V von %2, ab %3</translation></message>
<message><source>cannot be supplied</source><translation>nicht zu versorgen</translation></message>
<message><source>nothing</source><translation>nichts</translation></message>
<message><source>Stream</source><translation>Strom</translation></message>
<message><source>Camera</source><translation>Kamera</translation></message>
<message><source>day</source><translation>Tag</translation></message>
<message><source>night</source><translation>Nacht</translation></message>
<message><source>peak</source><translation>Spitze</translation></message>
<message><source>rate is</source><translation>Rate ist</translation></message>
<message><source>not known</source><translation>nicht bekannt</translation></message>
<message><source>What</source><translation>Was</translation></message>
<message><source>where</source><translation>wo</translation></message>
<message><source>usable</source><translation>nutzbar</translation></message>
<message><source>days</source><translation>Tage</translation></message>
<message><source>asked</source><translation>verlangt</translation></message>
<message><source>recorder</source><translation>Rekorder</translation></message>
<message><source>card</source><translation>Karte</translation></message>
<message><source>%1 disks, %2 would do</source><translation>%1 Platten, %2 würden reichen</translation></message>
<message><source>bridges %1 h</source><translation>überbrückt %1 h</translation></message>
<message><source>%1 % of the day</source><translation>%1 % des Tages</translation></message>
<message><source>%1 to %2</source><translation>%1 bis %2</translation></message>
<message><source>Rule</source><translation>Regel</translation></message>
<message><source>runs on</source><translation>läuft auf</translation></message>
<message><source>seen well enough by</source><translation>gut genug gesehen von</translation></message>
<message><source>none: it has to give</source><translation>keiner: sie muss weichen</translation></message>
<message><source> and %1 more</source><translation> und %1 weitere</translation></message>
<message><source>m up</source><translation>m hoch</translation></message>
<message><source>corrosion</source><translation>Korrosion</translation></message>
<message><source>air °C</source><translation>Luft °C</translation></message>
<message><source>rated °C</source><translation>zulässig °C</translation></message>
<message><source>Nothing is recorded.</source><translation>Nichts wird aufgezeichnet.</translation></message>
<message><source>No camera has a stream.</source><translation>Keine Kamera hat einen Strom.</translation></message>
<message><source>Mbit/s. An estimate is a range, never a promise.</source><translation>Mbit/s. Eine Schätzung ist ein Bereich, nie ein Versprechen.</translation></message>
<message><source>The brief asks for no rule.</source><translation>Der Auftrag verlangt keine Regel.</translation></message>
<message><source>Nothing is said of what the cameras have to stand.</source><translation>Es ist nicht gesagt, was die Kameras aushalten müssen.</translation></message>
<message><source>Filter: words, or a property: capacity/ports&gt;=8</source><translation>Filter: Wörter oder eine Eigenschaft: capacity/ports&gt;=8</translation></message>
<message><source>Filter of the catalogue</source><translation>Filter des Katalogs</translation></message>
<message><source>Models of the catalogue</source><translation>Modelle des Katalogs</translation></message>
<message><source>Selected models side by side</source><translation>Gewählte Modelle nebeneinander</translation></message>
<message><source>Model</source><translation>Modell</translation></message>
<message><source>kind</source><translation>Art</translation></message>
<message><source>maker</source><translation>Hersteller</translation></message>
<message><source>price</source><translation>Preis</translation></message>
<message><source>used</source><translation>verwendet</translation></message>
<message><source>Property</source><translation>Eigenschaft</translation></message>
<message><source>No model passes the filter.</source><translation>Kein Modell besteht den Filter.</translation></message>
<message><source>The design names no catalogue: its file does so, under catalogue.</source><translation>Der Entwurf nennt keinen Katalog.</translation></message>
<message><source>Nothing in the design is of the model %1.</source><translation>Nichts im Entwurf ist vom Modell %1.</translation></message>
<message numerus="yes"><source>%n rows fall short (open circle).</source><translation><numerusform>%n Zeile reicht nicht (offener Kreis).</numerusform><numerusform>%n Zeilen reichen nicht (offener Kreis).</numerusform></translation></message>
<message numerus="yes"><source>%n models. Select several to see them side by side.</source><translation><numerusform>%n Modell.</numerusform><numerusform>%n Modelle. Mehrere gewählt, stehen sie nebeneinander.</numerusform></translation></message>
<message numerus="yes"><source>%n streams</source><translation><numerusform>%n Strom</numerusform><numerusform>%n Ströme</numerusform></translation></message>
</context>
</TS>
