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
<message><source>serves %1</source><translation>deckt ab: %1</translation></message>
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
<message><source>Pr&amp;int ...</source><translation>&amp;Drucken ...</translation></message>
<message numerus="yes"><source>%n values</source><translation><numerusform>%n Wert</numerusform><numerusform>%n Werten</numerusform></translation></message>
<message numerus="yes"><source>%1 has %n problems. Nothing was opened; what was open before still is.</source><translation><numerusform>%1 hat %n Fehler. Nichts wurde geöffnet; was offen war, ist es noch.</numerusform><numerusform>%1 hat %n Fehler. Nichts wurde geöffnet; was offen war, ist es noch.</numerusform></translation></message>
<message><source>preview, spots %1 apart</source><translation>Vorschau, Punkte im Abstand %1</translation></message>
<message><source>preview, spots %1 apart; finer ones are coming</source><translation>Vorschau, Punkte im Abstand %1; feinere folgen</translation></message>
<message><source>Prints by the situation's &amp;light</source><translation>Abzüge im &amp;Licht der Situation</translation></message>
<message><source>focus</source><translation>Schärfe</translation></message>
<message><source>exposure</source><translation>Belichtung</translation></message>
<message><source>on its zone</source><translation>auf Zone</translation></message>
<message><source>as stated</source><translation>laut Blatt</translation></message>
<message><source>Focus of %1</source><translation>Schärfe von %1</translation></message>
<message><source>Exposure of %1</source><translation>Belichtung von %1</translation></message>
<message><source>S&amp;un of the imager</source><translation>S&amp;onne des Sensors</translation></message>
<message><source>Sun</source><translation>Sonne</translation></message>
<message><source>The sun's year</source><translation>Das Sonnenjahr</translation></message>
<message><source>The sun's year in words</source><translation>Das Sonnenjahr in Worten</translation></message>
<message><source>Progress of the sun's year</source><translation>Fortschritt des Sonnenjahres</translation></message>
<message><source>The sun's year to a file</source><translation>Das Sonnenjahr in eine Datei</translation></message>
<message><source>Work it &amp;out</source><translation>&amp;Berechnen</translation></message>
<message><source>Stopped.</source><translation>Angehalten.</translation></message>
<message><source>Select an imager: its year of sun is drawn here.</source><translation>Wählen Sie einen Sensor: hier wird sein Sonnenjahr gezeichnet.</translation></message>
<message><source>The site has no place, so that nobody can tell where the sun stands. Its file says so under site/place: lat_deg, lon_deg and north_deg.</source><translation>Das Gelände hat keinen Ort, niemand weiß also, wo die Sonne steht. In der Datei steht er unter site/place: lat_deg, lon_deg und north_deg.</translation></message>
<message><source>What the sun does in a year is not worked out yet.</source><translation>Was die Sonne im Jahr tut, ist noch nicht berechnet.</translation></message>
<message><source>aperture</source><translation>Blende</translation></message>
<message><source>wide open</source><translation>ganz offen</translation></message>
<message><source>Aperture of %1</source><translation>Blende von %1</translation></message>
<message><source>mono</source><translation>schwarzweiß</translation></message>
<message><source>colour</source><translation>farbig</translation></message>
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
<message><source>"%1" is not a focal length in mm.</source><translation>„%1“ ist keine Brennweite in mm.</translation></message>
<message><source>%1 mm</source><translation>%1 mm</translation></message>
<message numerus="yes"><source>%1, %n imagers</source><translation><numerusform>%1, %n Sensor</numerusform><numerusform>%1, %n Sensoren</numerusform></translation></message>
<message numerus="yes"><source>%n</source><translation><numerusform>%n</numerusform><numerusform>%n</numerusform></translation></message>
<message numerus="yes"><source>%n housings</source><translation><numerusform>%n Gehäuse</numerusform><numerusform>%n Gehäuse</numerusform></translation></message>
<message><source>Base of %1</source><translation>Sockel von %1</translation></message>
<message><source>Field of %1</source><translation>Bildwinkel von %1</translation></message>
<message><source>Focal length of %1</source><translation>Brennweite von %1</translation></message>
<message><source>Height of %1</source><translation>Höhe von %1</translation></message>
<message><source>Mark as %1</source><translation>%1 kennzeichnen: Zustand</translation></message>
<message><source>Mode: %1</source><translation>Betriebsart: %1</translation></message>
<message><source>Pan of %1</source><translation>Schwenk von %1</translation></message>
<message><source>Place of %1</source><translation>Ort von %1</translation></message>
<message><source>Roll of %1</source><translation>Rollwinkel von %1</translation></message>
<message><source>Tilt of %1</source><translation>Neigung von %1</translation></message>
<message><source>base</source><translation>Sockel</translation></message>
<message><source>by light</source><translation>nach Licht</translation></message>
<message><source>existing</source><translation>Bestand</translation></message>
<message><source>field</source><translation>Bildwinkel</translation></message>
<message><source>focal</source><translation>Brennweite</translation></message>
<message><source>lens at</source><translation>Höhe</translation></message>
<message><source>life</source><translation>Zustand</translation></message>
<message><source>mode</source><translation>Modus</translation></message>
<message><source>new</source><translation>neu</translation></message>
<message><source>pan</source><translation>Schwenk</translation></message>
<message><source>place</source><translation>Ort</translation></message>
<message><source>removed</source><translation>entfällt</translation></message>
<message><source>roll</source><translation>Rollen</translation></message>
<message><source>several</source><translation>verschieden</translation></message>
<message><source>tilt</source><translation>Neigung</translation></message>
<message><source>&amp;Aim</source><translation>A&amp;usrichten</translation></message>
<message><source>&amp;Below the horizon</source><translation>&amp;Unter der Waagerechten</translation></message>
<message><source>&amp;Close the circle ...</source><translation>&amp;Rundum schließen ...</translation></message>
<message><source>&amp;Look at this zone</source><translation>Auf diese &amp;Zone richten</translation></message>
<message><source>&amp;Overlap of neighbours</source><translation>&amp;Überlappung der Nachbarn</translation></message>
<message><source>&amp;Turn the base and its imagers ...</source><translation>&amp;Sockel samt Sensoren drehen ...</translation></message>
<message><source>Bearing; the imagers look where they looked:</source><translation>Richtung; die Sensoren sehen, wohin sie sahen:</translation></message>
<message><source>Bearing; the imagers turn with it:</source><translation>Richtung; die Sensoren drehen mit:</translation></message>
<message><source>Click the spot that the selected imagers are to look at; Escape leaves it.</source><translation>Auf die Stelle klicken, die die gewählten Sensoren sehen sollen; Esc bricht ab.</translation></message>
<message><source>Close the circle of %1</source><translation>Rundum schließen: %1</translation></message>
<message><source>Cop&amp;y the aims to other housings</source><translation>Ausrichtung auf andere Gehäuse &amp;übertragen</translation></message>
<message><source>Copy the aims of %1</source><translation>Ausrichtung von %1 übertragen</translation></message>
<message><source>Follow %1</source><translation>%1 folgen</translation></message>
<message><source>Follow this &amp;wall</source><translation>Dieser &amp;Wand folgen</translation></message>
<message><source>Look at %1</source><translation>Auf %1 richten</translation></message>
<message><source>Look at a &amp;spot</source><translation>Auf eine S&amp;telle richten</translation></message>
<message><source>Look at a spot</source><translation>Auf eine Stelle richten</translation></message>
<message><source>Mark as &amp;existing</source><translation>Als &amp;Bestand kennzeichnen</translation></message>
<message><source>Mark as &amp;new</source><translation>Als &amp;neu kennzeichnen</translation></message>
<message><source>Mark as &amp;removed</source><translation>Als &amp;entfallend kennzeichnen</translation></message>
<message><source>Mark as existing</source><translation>Als Bestand kennzeichnen</translation></message>
<message><source>Mark as new</source><translation>Als neu kennzeichnen</translation></message>
<message><source>Mark as removed</source><translation>Als entfallend kennzeichnen</translation></message>
<message><source>S&amp;wap the model ...</source><translation>&amp;Modell tauschen ...</translation></message>
<message><source>Select a housing whose model is to be swapped.</source><translation>Das Gehäuse wählen, dessen Modell getauscht werden soll.</translation></message>
<message><source>Select the housing whose aims are to be copied, then those that get them.</source><translation>Erst das Gehäuse wählen, dessen Ausrichtung übertragen wird, dann die, die sie bekommen.</translation></message>
<message><source>Select the housing whose base is to be turned.</source><translation>Das Gehäuse wählen, dessen Sockel gedreht werden soll.</translation></message>
<message><source>Select the housing whose circle is to be closed.</source><translation>Das Gehäuse wählen, das rundum geschlossen werden soll.</translation></message>
<message><source>Select the housings first.</source><translation>Erst die Gehäuse wählen.</translation></message>
<message><source>Select the imagers that are to look at a spot.</source><translation>Die Sensoren wählen, die auf eine Stelle gerichtet werden sollen.</translation></message>
<message><source>Select the imagers, and the requirement in the brief (or its zone) they are to look at.</source><translation>Die Sensoren wählen und die Anforderung (oder ihre Zone), auf die sie gerichtet werden sollen.</translation></message>
<message><source>Select the imagers, and with Shift the wall they are to follow.</source><translation>Die Sensoren wählen und mit Umschalt die Wand, der sie folgen sollen.</translation></message>
<message><source>There is no other housing that could get these aims.</source><translation>Es gibt kein anderes Gehäuse, das diese Ausrichtung bekommen könnte.</translation></message>
<message><source>Turn the &amp;base alone ...</source><translation>Nur den So&amp;ckel drehen ...</translation></message>
<message><source>all others of its model</source><translation>alle anderen dieses Modells</translation></message>
<message><source>to</source><translation>auf</translation></message>
<message><source>&amp;All prints of the housing</source><translation>&amp;Alle Abzüge des Gehäuses</translation></message>
<message><source>&amp;Folded section</source><translation>Umgeklappter &amp;Schnitt</translation></message>
<message><source>&amp;Print of what is selected</source><translation>A&amp;bzug des Gewählten</translation></message>
<message><source>From &amp;outside (3-D)</source><translation>Von &amp;außen (3D)</translation></message>
<message><source>P&amp;in its print, or let it go</source><translation>Abzug anhe&amp;ften oder lösen</translation></message>
<message><source>Section on the &amp;other side</source><translation>Schnitt auf die andere S&amp;eite</translation></message>
<message><source>Select a housing first: its prints come in the order of its ring.</source><translation>Erst ein Gehäuse wählen: Seine Abzüge stehen in der Reihenfolge seines Rings.</translation></message>
<message><source>, without %1</source><translation>, ohne %1</translation></message>
<message><source>Alternatives of the design</source><translation>Varianten des Entwurfs</translation></message>
<message><source>Change the design, give the change a name and keep it: the base comes back to the sheet and the change stands beside it.</source><translation>Den Entwurf ändern, der Änderung einen Namen geben und sie aufheben: Die Grundlage liegt dann wieder auf dem Blatt, die Änderung steht daneben.</translation></message>
<message><source>Delete “%1”</source><translation>„%1“ löschen</translation></message>
<message><source>Go over to “%1”</source><translation>Zu „%1“ wechseln</translation></message>
<message><source>Going over to “%1” ...</source><translation>Wechsel zu „%1“ ...</translation></message>
<message><source>Keep “%1”</source><translation>„%1“ aufheben</translation></message>
<message><source>Keeping “%1” ...</source><translation>„%1“ wird aufgehoben ...</translation></message>
<message><source>Kept as “%1”. The base is on the sheet again.</source><translation>Als „%1“ aufgehoben. Auf dem Blatt liegt wieder die Grundlage.</translation></message>
<message><source>Make “%1” the base</source><translation>„%1“ zur Grundlage machen</translation></message>
<message><source>Name under which the present state is kept</source><translation>Name, unter dem der jetzige Stand aufgehoben wird</translation></message>
<message><source>Not done: %1%2</source><translation>Nicht geschehen: %1%2</translation></message>
<message><source>Not done: the design was changed meanwhile. Do it again.</source><translation>Nicht geschehen: Der Entwurf wurde inzwischen geändert. Bitte noch einmal.</translation></message>
<message><source>Nothing has changed since the base: change something first.</source><translation>Seit der Grundlage ist nichts geändert: Erst etwas ändern.</translation></message>
<message><source>Progress of the comparison</source><translation>Fortschritt des Vergleichs</translation></message>
<message><source>Rename an alternative</source><translation>Variante umbenennen</translation></message>
<message><source>Requirement</source><translation>Anforderung</translation></message>
<message><source>Requirements in each alternative</source><translation>Anforderungen in jeder Variante</translation></message>
<message><source>name of the present state</source><translation>Name des jetzigen Stands</translation></message>
<message><source>of the design before the last changes</source><translation>vom Entwurf vor den letzten Änderungen</translation></message>
<message><source>stopped</source><translation>angehalten</translation></message>
<message><source>%1 belongs to the design, but another file of that name lies in %2</source><translation>%1 gehört zum Entwurf, aber in %2 liegt eine andere Datei dieses Namens</translation></message>
<message><source>%1 cannot be read</source><translation>%1 ist nicht lesbar</translation></message>
<message><source>%1 could not be put beside the design: %2</source><translation>%1 konnte nicht neben den Entwurf gelegt werden: %2</translation></message>
<message><source>Snap t&amp;o what is drawn</source><translation>An &amp;Gezeichnetem einrasten</translation></message>
<message><source>&amp;Grid ...</source><translation>&amp;Raster ...</translation></message>
<message><source>Grid</source><translation>Raster</translation></message>
<message><source>Lines so far apart; empty: no grid.</source><translation>Abstand der Linien; leer: kein Raster.</translation></message>
<message><source>a grid's lines cannot be less than nothing apart</source><translation>die Linien eines Rasters können nicht weniger als nichts auseinander liegen</translation></message>
<message><source>Nothing is drawn yet: begin with the building's outline (Draw, Building).</source><translation>Noch ist nichts gezeichnet: mit dem Umriss des Gebäudes beginnen (Zeichnen, Gebäude).</translation></message>
<message><source>Below hori&amp;zon</source><translation>U&amp;nter Horizont</translation></message>
<message><source>; %1 from %2 to %3 degrees</source><translation>; %1 von %2 bis %3 Grad</translation></message>
<message><source>; gap from %1 to %2</source><translation>; Lücke von %1 bis %2</translation></message>
<message><source>Angle below the horizon at which arcs are compared</source><translation>Winkel unter der Waagerechten, bei dem die Bögen verglichen werden</translation></message>
<message><source>Arcs of %1</source><translation>Bögen von %1</translation></message>
<message><source>Bearing rule: select a housing</source><translation>Rundumleiste: ein Gehäuse wählen</translation></message>
<message><source>Select a housing to see where its imagers look all round.</source><translation>Ein Gehäuse wählen, um zu sehen, wohin seine Sensoren rundum blicken.</translation></message>
<message><source>gap %1°</source><translation>Lücke %1°</translation></message>
<message><source>Cancel</source><translation>Abbrechen</translation></message>
<message><source>Building: click the corners of its floor, or drag a rectangle.</source><translation>Gebäude: die Ecken der Grundfläche anklicken oder ein Rechteck aufziehen.</translation></message>
<message><source>Door</source><translation>Tür</translation></message>
<message><source>Door: click where on a wall it goes; type a number for its width.</source><translation>Tür: anklicken, wo in einer Wand sie sitzt; eine Zahl ist ihre Breite.</translation></message>
<message><source>Draw a building</source><translation>Gebäude zeichnen</translation></message>
<message><source>Draw a wall</source><translation>Wand zeichnen</translation></message>
<message><source>Draw an obstacle</source><translation>Hindernis zeichnen</translation></message>
<message><source>Obstacle: click its corners, or drag a rectangle.</source><translation>Hindernis: die Ecken anklicken oder ein Rechteck aufziehen.</translation></message>
<message><source>Put in: %1</source><translation>Einsetzen: %1</translation></message>
<message><source>Wall: click where its centre line begins, or type 4.5;3. Shift keeps right angles.</source><translation>Wand: anklicken, wo ihre Achse beginnt, oder 4.5;3 eintippen. Umschalt hält rechte Winkel.</translation></message>
<message><source>Window</source><translation>Fenster</translation></message>
<message><source>Window: click where on a wall it goes; type a number for its width.</source><translation>Fenster: anklicken, wo in einer Wand es sitzt; eine Zahl ist seine Breite.</translation></message>
<message><source>beam</source><translation>Unterzug</translation></message>
<message><source>canopy</source><translation>Vordach</translation></message>
<message><source>column</source><translation>Stütze</translation></message>
<message><source>counter</source><translation>Theke</translation></message>
<message><source>foliage</source><translation>Laub</translation></message>
<message><source>furniture</source><translation>Möbel</translation></message>
<message><source>head</source><translation>Sturz</translation></message>
<message><source>height of the storey</source><translation>Geschosshöhe</translation></message>
<message><source>other</source><translation>anderes</translation></message>
<message><source>ramp</source><translation>Rampe</translation></message>
<message><source>sign</source><translation>Schild</translation></message>
<message><source>sill</source><translation>Brüstung</translation></message>
<message><source>stair</source><translation>Treppe</translation></message>
<message><source>stock, shelves</source><translation>Ware, Regale</translation></message>
<message><source>there is no storey yet: draw a building's outline first</source><translation>es gibt noch kein Geschoss: erst den Umriss eines Gebäudes zeichnen</translation></message>
<message><source>there is no wall here</source><translation>hier ist keine Wand</translation></message>
<message><source>thickness</source><translation>Dicke</translation></message>
<message><source>vehicle</source><translation>Fahrzeug</translation></message>
<message><source>what</source><translation>was</translation></message>
<message><source>width</source><translation>Breite</translation></message>
<message><source>Building</source><translation>Gebäude</translation></message>
<message><source>Obstacle</source><translation>Hindernis</translation></message>
<message><source>Wall</source><translation>Wand</translation></message>
<message><source>Command, object or requirement</source><translation>Befehl, Objekt oder Anforderung</translation></message>
<message><source>What can be run or gone to</source><translation>Was sich ausführen oder aufsuchen lässt</translation></message>
<message><source>Another program has changed %1, and so have you. What you take over can be undone.</source><translation>Ein anderes Programm hat %1 geändert, und hier wurde auch geändert. Was übernommen wird, lässt sich rückgängig machen.</translation></message>
<message><source>Kept. Saving will write over what the other program wrote.</source><translation>Behalten. Beim Speichern wird überschrieben, was das andere Programm schrieb.</translation></message>
<message><source>What the other program wrote cannot be used. Your design is as it was.</source><translation>Was das andere Programm schrieb, ist nicht verwendbar. Der Entwurf ist, wie er war.</translation></message>
<message><source>&amp;Building</source><translation>&amp;Gebäude</translation></message>
<message><source>&amp;Column or obstacle</source><translation>S&amp;tütze oder Hindernis</translation></message>
<message><source>&amp;Door in a wall</source><translation>&amp;Tür in einer Wand</translation></message>
<message><source>&amp;Housing</source><translation>Ge&amp;häuse</translation></message>
<message><source>&amp;Measure</source><translation>&amp;Messen</translation></message>
<message><source>&amp;Pointer</source><translation>&amp;Zeiger</translation></message>
<message><source>&amp;Rename the storey ...</source><translation>Geschoss um&amp;benennen ...</translation></message>
<message><source>&amp;Storey above</source><translation>Geschoss &amp;darüber</translation></message>
<message><source>&amp;Wall</source><translation>&amp;Wand</translation></message>
<message><source>&amp;Zone and what must be seen</source><translation>&amp;Zone und was zu sehen sein muss</translation></message>
<message><source>Add a storey</source><translation>Geschoss hinzufügen</translation></message>
<message><source>Con&amp;tainment</source><translation>&amp;Kabeltrasse</translation></message>
<message><source>Mounting &amp;line</source><translation>Montage&amp;linie</translation></message>
<message><source>Rename a storey</source><translation>Geschoss umbenennen</translation></message>
<message><source>Rename the storey</source><translation>Geschoss umbenennen</translation></message>
<message><source>Storey &amp;down</source><translation>Geschoss na&amp;ch unten</translation></message>
<message><source>Storey &amp;up</source><translation>Geschoss nach &amp;oben</translation></message>
<message><source>What it is called:</source><translation>Wie es heißt:</translation></message>
<message><source>Wi&amp;ndow in a wall</source><translation>&amp;Fenster in einer Wand</translation></message>
<message numerus="yes"><source>%n places at least are needed.</source><translation><numerusform>Mindestens %n Punkt ist nötig.</numerusform><numerusform>Mindestens %n Punkte sind nötig.</numerusform></translation></message>
<message><source>Next corner: click, or type a length, 8 x 6, @2;1 or @5&lt;90. Backspace takes the last one back.</source><translation>Nächste Ecke: klicken oder eine Länge eintippen, 8 x 6, @2;1 oder @5&lt;90. Rücktaste nimmt die letzte zurück.</translation></message>
<message><source>Next place: click or type. Enter ends, Backspace takes the last one back.</source><translation>Nächster Punkt: klicken oder eintippen. Eingabe schließt ab, Rücktaste nimmt den letzten zurück.</translation></message>
<message><source>Next place: click or type. Enter ends, C or the first place closes, Backspace takes the last one back.</source><translation>Nächster Punkt: klicken oder eintippen. Eingabe schließt ab, C oder der erste Punkt schließt den Zug, Rücktaste nimmt den letzten zurück.</translation></message>
<message><source>length or place</source><translation>Länge oder Ort</translation></message>
<message><source>point in the direction first, or type it too: @5&lt;90</source><translation>erst in die Richtung zeigen oder sie mit eintippen: @5&lt;90</translation></message>
<message><source>the first place is a click, or typed like 4.5;3</source><translation>der erste Punkt ist ein Klick oder eine Eingabe wie 4.5;3</translation></message>
<message><source>%1 is more than nothing</source><translation>%1 ist mehr als nichts</translation></message>
<message><source>&amp;Copy</source><translation>&amp;Kopieren</translation></message>
<message><source>&amp;Duplicate</source><translation>&amp;Duplizieren</translation></message>
<message><source>&amp;Erase</source><translation>&amp;Löschen</translation></message>
<message><source>&amp;Move by ...</source><translation>&amp;Verschieben um ...</translation></message>
<message><source>&amp;Paste</source><translation>&amp;Einfügen</translation></message>
<message><source>&amp;Rows and columns ...</source><translation>Reihen und Spa&amp;lten ...</translation></message>
<message><source>&amp;columns</source><translation>&amp;Spalten</translation></message>
<message><source>&amp;rows</source><translation>&amp;Reihen</translation></message>
<message><source>; </source><translation>; </translation></message>
<message><source>Cop&amp;y by ...</source><translation>K&amp;opieren um ...</translation></message>
<message numerus="yes"><source>Copied: %n things</source><translation><numerusform>Kopiert: %n Ding</numerusform><numerusform>Kopiert: %n Dinge</numerusform></translation></message>
<message><source>Copies along a li&amp;ne ...</source><translation>Kopien entlang einer Li&amp;nie ...</translation></message>
<message><source>Cu&amp;t</source><translation>&amp;Ausschneiden</translation></message>
<message><source>Cut</source><translation>Ausschneiden</translation></message>
<message><source>Duplicate</source><translation>Duplizieren</translation></message>
<message><source>Erase</source><translation>Löschen</translation></message>
<message><source>Erased; also: %1</source><translation>Gelöscht; dazu: %1</translation></message>
<message><source>M&amp;irror ...</source><translation>&amp;Spiegeln ...</translation></message>
<message><source>Next &amp;handle</source><translation>Nächster &amp;Griff</translation></message>
<message><source>Paste</source><translation>Einfügen</translation></message>
<message><source>Paste in p&amp;lace</source><translation>An &amp;gleicher Stelle einfügen</translation></message>
<message><source>Pre&amp;vious handle</source><translation>Vo&amp;riger Griff</translation></message>
<message><source>Rows and columns</source><translation>Reihen und Spalten</translation></message>
<message><source>Select &amp;all</source><translation>Alles &amp;auswählen</translation></message>
<message><source>Select the re&amp;st</source><translation>Den &amp;Rest auswählen</translation></message>
<message><source>Select the same &amp;kind</source><translation>&amp;Gleiche Art auswählen</translation></message>
<message><source>T&amp;urn ...</source><translation>D&amp;rehen ...</translation></message>
<message><source>from column to column, &amp;east</source><translation>von Spalte zu Spalte, nach &amp;Osten</translation></message>
<message><source>from row to row, &amp;north</source><translation>von Reihe zu Reihe, nach &amp;Norden</translation></message>
<message><source>nothing is selected</source><translation>nichts ist gewählt</translation></message>
<message><source>nothing was copied yet</source><translation>noch ist nichts kopiert</translation></message>
<message><source>Click from where and to where, or type by how much: @2;1 or @5&lt;90.</source><translation>Anklicken, von wo nach wo, oder eintippen, um wie viel: @2;1 oder @5&lt;90.</translation></message>
<message><source>Copy</source><translation>Kopieren</translation></message>
<message><source>Copy along a line</source><translation>Kopieren entlang einer Linie</translation></message>
<message><source>Copy along a line: click along it from the original on; Enter ends.</source><translation>Kopieren entlang einer Linie: vom Original an die Linie anklicken; Eingabe schließt ab.</translation></message>
<message><source>Copy by</source><translation>Kopieren um</translation></message>
<message><source>Mirror</source><translation>Spiegeln</translation></message>
<message><source>Mirror: click two places of the line to mirror across.</source><translation>Spiegeln: zwei Punkte der Spiegelachse anklicken.</translation></message>
<message><source>Move</source><translation>Verschieben</translation></message>
<message><source>Move by</source><translation>Verschieben um</translation></message>
<message><source>Turn</source><translation>Drehen</translation></message>
<message><source>Turn: drag round the middle of what is selected, or type an angle; Shift takes steps of 15°.</source><translation>Drehen: um die Mitte des Gewählten ziehen oder einen Winkel eintippen; Umschalt nimmt Stufen von 15°.</translation></message>
<message><source>copies</source><translation>Kopien</translation></message>
<message><source>every</source><translation>alle</translation></message>
<message><source>stay as they are</source><translation>bleiben, wie sie stehen</translation></message>
<message><source>turn with the line</source><translation>drehen sich mit der Linie</translation></message>
<message><source>angle, clockwise</source><translation>Winkel, im Uhrzeigersinn</translation></message>
<message><source>by how much</source><translation>um wie viel</translation></message>
<message><source>%1, %2 by %3 mm</source><translation>%1, %2 mal %3 mm</translation></message>
<message><source>%1, the largest at which all fits</source><translation>%1, der größte, bei dem alles Platz hat</translation></message>
<message><source>&amp;Paper</source><translation>&amp;Papier</translation></message>
<message><source>&amp;Print to scale ...</source><translation>Maßstäblich &amp;drucken ...</translation></message>
<message><source>&amp;Scale</source><translation>&amp;Maßstab</translation></message>
<message><source>At %1 the plan is larger than the paper: its middle is drawn.</source><translation>Bei %1 ist der Plan größer als das Papier: Gezeichnet wird seine Mitte.</translation></message>
<message><source>Ctrl+E</source><translation>Ctrl+E</translation></message>
<message><source>Lengths on the paper are exact where the printer does not fit the page.</source><translation>Längen auf dem Papier stimmen, wenn der Drucker die Seite nicht anpasst.</translation></message>
<message><source>Not written: %1</source><translation>Nicht geschrieben: %1</translation></message>
<message><source>PDF (*.pdf);;SVG (*.svg);;PNG (*.png)</source><translation>PDF (*.pdf);;SVG (*.svg);;PNG (*.png)</translation></message>
<message><source>Plan to a fil&amp;e ...</source><translation>Plan in eine Dat&amp;ei ...</translation></message>
<message><source>Printed.</source><translation>Gedruckt.</translation></message>
<message><source>Progress of the drawing</source><translation>Fortschritt der Zeichnung</translation></message>
<message><source>S&amp;top</source><translation>&amp;Anhalten</translation></message>
<message><source>Sho&amp;ws</source><translation>&amp;Zeigt</translation></message>
<message><source>Stopped; nothing was written.</source><translation>Angehalten; nichts wurde geschrieben.</translation></message>
<message><source>The design has no storey yet: there is nothing to draw to scale.</source><translation>Der Entwurf hat noch kein Geschoss: Es gibt nichts maßstäblich zu zeichnen.</translation></message>
<message><source>The plan to a file</source><translation>Der Plan in eine Datei</translation></message>
<message><source>The plan to scale</source><translation>Der Plan im Maßstab</translation></message>
<message><source>To a &amp;file ...</source><translation>In eine &amp;Datei ...</translation></message>
<message><source>Written: %1</source><translation>Geschrieben: %1</translation></message>
<message><source>the selected requirement, close up</source><translation>die gewählte Anforderung, herausgezogen</translation></message>
<message><source>the whole storey, each zone with its first requirement</source><translation>das ganze Geschoss, jede Zone mit ihrer ersten Anforderung</translation></message>
<message><source>%1
%2 agreed: %3</source><translation>%1
%2 einverstanden: %3</translation></message>
<message><source>Accept a finding</source><translation>Befund hinnehmen</translation></message>
<message><source>Findings of the last proof</source><translation>Befunde des letzten Nachweises</translation></message>
<message><source>Nothing is proven yet. Findings come with the proof.</source><translation>Noch ist nichts nachgewiesen. Befunde kommen mit dem Nachweis.</translation></message>
<message><source>Of the design before the last changes; the proof is under way.</source><translation>Vom Entwurf vor den letzten Änderungen; der Nachweis läuft.</translation></message>
<message><source>Take back an acceptance</source><translation>Hinnahme zurücknehmen</translation></message>
<message><source>The proof found nothing to mention.</source><translation>Der Nachweis fand nichts zu erwähnen.</translation></message>
<message><source>who agreed</source><translation>wer einverstanden ist</translation></message>
<message><source>why it can be lived with</source><translation>warum man damit leben kann</translation></message>
<message><source>A drawing or photograph of the plan, brought to scale by two points</source><translation>Zeichnung oder Foto des Plans, mit zwei Punkten in den Maßstab gebracht</translation></message>
<message><source>Draw the site yourself</source><translation>Den Ort selbst zeichnen</translation></message>
<message><source>Start</source><translation>Start</translation></message>
<message><source>Ctrl+K</source><translation>Ctrl+K</translation></message>
<message><source>Headings of the page</source><translation>Überschriften der Seite</translation></message>
<message><source>Text of the page</source><translation>Text der Seite</translation></message>
<message><source>%1   tilt %2   field %3</source><translation>%1   Neigung %2   Bildwinkel %3</translation></message>
<message><source>%1 could not be written: choose another folder.</source><translation>%1 konnte nicht geschrieben werden: einen anderen Ordner wählen.</translation></message>
<message><source>&amp;Save as PNG ...</source><translation>Als PNG &amp;speichern ...</translation></message>
<message><source>Pictures (*.png)</source><translation>Bilder (*.png)</translation></message>
<message><source>Prints in the order of the ring: %1</source><translation>Abzüge in der Reihenfolge des Rings: %1</translation></message>
<message><source>Prints of %1</source><translation>Abzüge von %1</translation></message>
<message><source>Save the prints</source><translation>Abzüge speichern</translation></message>
<message><source>%1, %2</source><translation>%1, %2</translation></message>
<message><source>Housing: click where it is fixed; near a mounting line or a wall it takes hold of it.</source><translation>Gehäuse: anklicken, wo es befestigt wird; nahe einer Montagelinie oder Wand setzt es sich daran.</translation></message>
<message><source>Put up a housing</source><translation>Gehäuse anbringen</translation></message>
<message><source>as held</source><translation>wie gehalten</translation></message>
<message><source>height</source><translation>Höhe</translation></message>
<message><source>model</source><translation>Modell</translation></message>
<message><source>on %1, %2</source><translation>an %1, %2</translation></message>
<message><source>the catalogue of this design has no housings yet</source><translation>der Katalog dieses Entwurfs hat noch keine Gehäuse</translation></message>
<message><source>%1 at %2</source><translation>%1 in %2</translation></message>
<message><source>, %1 of %2 %3</source><translation>, %1 von %2 %3</translation></message>
<message><source>, %1 of at most %2 %3</source><translation>, %1 von höchstens %2 %3</translation></message>
<message><source>Make this change</source><translation>So ändern</translation></message>
<message numerus="yes"><source>and %n more imagers</source><translation><numerusform>und %n weiterer Sensor</numerusform><numerusform>und %n weitere Sensoren</numerusform></translation></message>
<message><source>hidden by %1</source><translation>verdeckt durch %1</translation></message>
<message><source>no imager looks here</source><translation>kein Sensor blickt hierher</translation></message>
<message><source>%1  %2 %</source><translation>%1  %2 %</translation></message>
<message><source>No single change of aim, zoom, height, place or model mends the worst spot.</source><translation>Keine einzelne Änderung von Ausrichtung, Bildwinkel, Höhe, Ort oder Modell behebt die schlechteste Stelle.</translation></message>
<message><source>Show the worst spot</source><translation>Schlechteste Stelle zeigen</translation></message>
<message><source>Would mend the worst spot:</source><translation>Die schlechteste Stelle würde beheben:</translation></message>
<message><source>being looked at</source><translation>wird angesehen</translation></message>
<message><source>changed since: being looked at</source><translation>seither geändert: wird angesehen</translation></message>
<message><source>met: %1</source><translation>erfüllt: %1</translation></message>
<message><source>not met: %1</source><translation>nicht erfüllt: %1</translation></message>
<message><source>not proven yet</source><translation>noch nicht nachgewiesen</translation></message>
<message><source>preview: %1 % of %2</source><translation>Vorschau: %1 % von %2</translation></message>
<message><source>undecided: %1</source><translation>offen: %1</translation></message>
<message><source>without %1</source><translation>ohne %1</translation></message>
<message><source>Nothing is asked for yet. Draw a zone, then say what must be seen in it.</source><translation>Noch wird nichts verlangt. Eine Zone zeichnen und sagen, was darin zu sehen sein muss.</translation></message>
<message><source>The window in which a video surveillance design is made and proven.</source><translation>Das Fenster, in dem ein Entwurf für Videoüberwachung entsteht und nachgewiesen wird.</translation></message>
<message><source>en or de; as the system is unless said</source><translation>en oder de; ohne Angabe wie das System</translation></message>
<message><source>light or dark; as the system is unless said</source><translation>light (hell) oder dark (dunkel); ohne Angabe wie das System</translation></message>
<message><source>the design file to open</source><translation>die Entwurfsdatei, die geöffnet wird</translation></message>
<message><source>%1[*] — Belvedere</source><translation>%1[*] — Belvedere</translation></message>
<message><source>Another program has changed %1 since it was opened. Save over it?</source><translation>Ein anderes Programm hat %1 seit dem Öffnen geändert. Trotzdem überschreiben?</translation></message>
<message><source>Designs (*.json)</source><translation>Entwürfe (*.json)</translation></message>
<message><source>Designs (*.json);;All files (*)</source><translation>Entwürfe (*.json);;Alle Dateien (*)</translation></message>
<message><source>Home</source><translation>Home</translation></message>
<message><source>Open a design</source><translation>Entwurf öffnen</translation></message>
<message><source>Progress of the proof</source><translation>Fortschritt des Nachweises</translation></message>
<message><source>Save the design</source><translation>Entwurf speichern</translation></message>
<message><source>&amp;New</source><translation>&amp;Neu</translation></message>
<message><source>Question</source><translation>Frage</translation></message>
<message><source>%1 %2</source><translation>%1 %2</translation></message>
<message numerus="yes"><source>%n things</source><translation><numerusform>%n Ding</numerusform><numerusform>%n Dinge</numerusform></translation></message>
<message><source>Change %1 of %2</source><translation>%1 von %2 ändern</translation></message>
<message><source>as the storey</source><translation>wie das Geschoss</translation></message>
<message><source>floor</source><translation>Boden</translation></message>
<message><source>from the wall's start</source><translation>ab Wandanfang</translation></message>
<message><source>height from</source><translation>Höhe ab</translation></message>
<message><source>height to</source><translation>Höhe bis</translation></message>
<message><source>material</source><translation>Material</translation></message>
<message><source>name</source><translation>Name</translation></message>
<message><source>on a</source><translation>an</translation></message>
<message><source>origin, east</source><translation>Ursprung, Osten</translation></message>
<message><source>origin, north</source><translation>Ursprung, Norden</translation></message>
<message><source>roof above</source><translation>Dach darüber</translation></message>
<message><source>slab below</source><translation>Decke darunter</translation></message>
<message><source>top</source><translation>Oberkante</translation></message>
<message><source>top rises by</source><translation>Oberkante steigt um</translation></message>
<message><source>towards</source><translation>in Richtung</translation></message>
<message><source>turned</source><translation>gedreht</translation></message>
<message><source>what it is of</source><translation>woraus es ist</translation></message>
<message><source>Filter of the objects</source><translation>Filter der Objekte</translation></message>
<message><source>Objects of the plan</source><translation>Objekte des Plans</translation></message>
<message><source>Rename %1</source><translation>%1 umbenennen</translation></message>
<message><source>Arrows go round it, plus and minus go nearer and farther.</source><translation>Pfeiltasten drehen, Plus und Minus führen näher heran und weiter weg.</translation></message>
<message><source>From outside</source><translation>Von außen</translation></message>
<message><source>The building from outside</source><translation>Das Gebäude von außen</translation></message>
<message><source>being drawn</source><translation>wird gezeichnet</translation></message>
<message><source>Aim %1</source><translation>%1 ausrichten</translation></message>
<message><source>Tilt %1</source><translation>%1 neigen</translation></message>
<message><source>Turn %1</source><translation>%1 schwenken</translation></message>
<message><source>Zoom %1</source><translation>Bildwinkel von %1 ändern</translation></message>
<message><source>field %1</source><translation>Bildwinkel %1</translation></message>
<message><source>pan %1</source><translation>Schwenk %1</translation></message>
<message><source>pan %1, tilt %2</source><translation>Schwenk %1, Neigung %2</translation></message>
<message><source>tilt %1</source><translation>Neigung %1</translation></message>
<message><source>Click what you want to change; drag over paper or a zone to select by a box.</source><translation>Anklicken, was geändert werden soll; über Papier oder einer Zone zieht man einen Rahmen zum Auswählen.</translation></message>
<message><source>Drag to move, pull a handle, or turn an imager by its knob.</source><translation>Ziehen verschiebt; an einem Griff ziehen oder einen Sensor an seinem Knopf drehen.</translation></message>
<message><source>Length of an edge of %1</source><translation>Länge einer Kante von %1</translation></message>
<message><source>Move %1</source><translation>%1 verschieben</translation></message>
<message numerus="yes"><source>Move %n things</source><translation><numerusform>%n Ding verschieben</numerusform><numerusform>%n Dinge verschieben</numerusform></translation></message>
<message><source>Pointer</source><translation>Zeiger</translation></message>
<message><source>Reshape %1</source><translation>%1 umformen</translation></message>
<message><source>Take a point of %1</source><translation>Einen Punkt von %1 wegnehmen</translation></message>
<message><source>length of this edge</source><translation>Länge dieser Kante</translation></message>
<message><source>move by</source><translation>verschieben um</translation></message>
<message><source>place of this point</source><translation>Ort dieses Punkts</translation></message>
<message><source>Print of %1</source><translation>Abzug von %1</translation></message>
<message><source>put away</source><translation>weglegen</translation></message>
<message><source>The print of %1 goes when something else is selected.</source><translation>Der Abzug von %1 geht, sobald anderes gewählt wird.</translation></message>
<message><source>The print of %1 stays.</source><translation>Der Abzug von %1 bleibt.</translation></message>
<message><source>Problems of the file</source><translation>Fehler der Datei</translation></message>
<message><source>Changes are not kept for recovery: %1 (%2). Save often.</source><translation>Änderungen werden nicht zur Wiederherstellung aufgehoben: %1 (%2). Oft speichern.</translation></message>
<message><source> to </source><translation> bis </translation></message>
<message><source>"%1" is no number</source><translation>„%1“ ist keine Zahl</translation></message>
<message><source>%1 asks</source><translation>%1 verlangt</translation></message>
<message><source>&amp;Another requirement</source><translation>&amp;Weitere Anforderung</translation></message>
<message><source>&amp;Brief</source><translation>Au&amp;fgabe</translation></message>
<message><source>&amp;Erase the requirement</source><translation>Anforderung &amp;löschen</translation></message>
<message><source>&amp;Rename the situation ...</source><translation>Situation um&amp;benennen ...</translation></message>
<message><source>Another &amp;situation ...</source><translation>Weitere &amp;Situation ...</translation></message>
<message><source>Another requirement</source><translation>Weitere Anforderung</translation></message>
<message><source>Another situation</source><translation>Weitere Situation</translation></message>
<message><source>Erase %1</source><translation>%1 löschen</translation></message>
<message><source>Rename a situation</source><translation>Situation umbenennen</translation></message>
<message><source>Rename the situation</source><translation>Situation umbenennen</translation></message>
<message><source>a band reads 1.4 to 1.8</source><translation>ein Höhenbereich lautet 1.4 to 1.8</translation></message>
<message><source>a density of its own</source><translation>eine eigene Bilddichte</translation></message>
<message><source>a requirement holds in one situation at least</source><translation>eine Anforderung gilt in mindestens einer Situation</translation></message>
<message><source>any will do</source><translation>eine genügt</translation></message>
<message><source>band of heights</source><translation>Höhenbereich</translation></message>
<message><source>be seen</source><translation>gesehen werden</translation></message>
<message><source>density, px/m</source><translation>Bilddichte, px/m</translation></message>
<message><source>draw a zone first, with Z</source><translation>erst eine Zone zeichnen, mit Z</translation></message>
<message><source>each must do</source><translation>jede muss genügen</translation></message>
<message><source>facing, bearings</source><translation>Blickrichtung, Grad</translation></message>
<message><source>holds in</source><translation>gilt in</translation></message>
<message><source>imagers are counted</source><translation>Sensoren zählen nach</translation></message>
<message><source>imagers at once</source><translation>Sensoren zugleich</translation></message>
<message><source>judged on</source><translation>beurteilt am Bild</translation></message>
<message><source>must</source><translation>muss</translation></message>
<message><source>no requirement is selected</source><translation>keine Anforderung ist gewählt</translation></message>
<message><source>not be seen</source><translation>nicht gesehen werden</translation></message>
<message><source>of the facings</source><translation>von den Richtungen</translation></message>
<message><source>purpose</source><translation>Zweck</translation></message>
<message><source>share, %</source><translation>Anteil, %</translation></message>
<message><source>situations</source><translation>Situationen</translation></message>
<message><source>task</source><translation>Aufgabe</translation></message>
<message><source>the design's task table has no tasks</source><translation>die Aufgabentabelle des Entwurfs hat keine Aufgaben</translation></message>
<message><source>whom or what</source><translation>wen oder was</translation></message>
<message><source>zone</source><translation>Zone</translation></message>
<message><source>a band of heights</source><translation>einen Höhenbereich</translation></message>
<message><source>a child's face</source><translation>ein Kindergesicht</translation></message>
<message><source>a face</source><translation>ein Gesicht</translation></message>
<message><source>a number plate</source><translation>ein Kennzeichen</translation></message>
<message><source>a person</source><translation>eine Person</translation></message>
<message><source>a seated face</source><translation>ein Gesicht im Sitzen</translation></message>
<message><source>as captured</source><translation>wie aufgenommen</translation></message>
<message><source>as recorded</source><translation>wie aufgezeichnet</translation></message>
<message><source>as viewed</source><translation>wie betrachtet</translation></message>
<message><source>the floor</source><translation>den Boden</translation></message>
<message><source>A new design</source><translation>Neuer Entwurf</translation></message>
<message><source>Recovered. The file is untouched until you save.</source><translation>Wiederhergestellt. Die Datei bleibt unberührt, bis gespeichert wird.</translation></message>
<message><source>What was kept cannot be used as it is. It stays at %1.</source><translation>Was aufgehoben war, ist so nicht verwendbar. Es bleibt unter %1.</translation></message>
<message><source>lens %1</source><translation>Objektiv %1</translation></message>
<message><source>%1 %2 to %3</source><translation>%1 %2 bis %3</translation></message>
<message><source>Mbit/s</source><translation>Mbit/s</translation></message>
<message><source>Mpx/s</source><translation>Mpx/s</translation></message>
<message><source>No links are drawn, so nothing is said of power.</source><translation>Es sind keine Strecken gezeichnet, also wird über den Strom nichts gesagt.</translation></message>
<message><source>No links are drawn, so nothing is said of the network: the design file names them under services.</source><translation>Es sind keine Strecken gezeichnet, also wird über das Netz nichts gesagt: Die Entwurfsdatei nennt sie unter services.</translation></message>
<message><source>TB</source><translation>TB</translation></message>
<message><source>Watts at the source, the loss of the cable counted. Cold: with lamps and heater. Sources first.</source><translation>Watt an der Quelle, der Verlust im Kabel ist mitgezählt. Kalt: mit Leuchten und Heizung. Quellen zuerst.</translation></message>
<message><source>What the brief asks to keep, recorders, cards, streams. Usable: less parity, hot spares and what the file system keeps free; 1 TB is 10^12 bytes.</source><translation>Was die Aufgabe aufzuheben verlangt, Rekorder, Karten, Ströme. Nutzbar: abzüglich Parität, Reserveplatten und was das Dateisystem frei hält; 1 TB sind 10^12 Byte.</translation></message>
<message><source>m</source><translation>m</translation></message>
<message><source>IK</source><translation>IK</translation></message>
<message><source>IP</source><translation>IP</translation></message>
<message><source>Rules of the brief on imagers that see them, within what each housing can run.</source><translation>Regeln der Aufgabe auf Sensoren, die sie sehen, soweit jedes Gehäuse sie ausführen kann.</translation></message>
<message><source>The code that it has / the code asked for. Fixings at height and their loads are for licensed people.</source><translation>Die Schutzart, die es hat / die verlangte. Befestigungen in der Höhe und ihre Lasten sind Sache von Fachleuten.</translation></message>
<message><source>Plan</source><translation>Plan</translation></message>
<message><source>The plan as drawing board. Everything on it is also listed in the table of objects.</source><translation>Der Plan als Reißbrett. Alles darauf steht auch in der Liste der Objekte.</translation></message>
<message><source>%1 already runs “%2”: give that one other keys first.</source><translation>%1 ruft schon „%2“ auf: Diesem erst andere Tasten geben.</translation></message>
<message><source>Commands and their keys</source><translation>Befehle und ihre Tasten</translation></message>
<message><source>New keys of the chosen command</source><translation>Neue Tasten des gewählten Befehls</translation></message>
<message><source>, </source><translation>, </translation></message>
<message><source>Add the zone</source><translation>Zone hinzufügen</translation></message>
<message><source>Containment: click along the way of the cables.</source><translation>Kabeltrasse: entlang dem Weg der Kabel klicken.</translation></message>
<message><source>Draw a mounting line</source><translation>Montagelinie zeichnen</translation></message>
<message><source>Draw a zone</source><translation>Zone zeichnen</translation></message>
<message><source>Draw containment</source><translation>Kabeltrasse zeichnen</translation></message>
<message><source>Measure: click two places or more; Enter ends.</source><translation>Messen: zwei Punkte oder mehr anklicken; Eingabe schließt ab.</translation></message>
<message><source>Mounting line: click along where housings may be fixed.</source><translation>Montagelinie: klicken, wo entlang Gehäuse befestigt werden dürfen.</translation></message>
<message><source>Name the zone and say what must be seen in it; Enter adds both.</source><translation>Die Zone benennen und sagen, was zu sehen sein muss; Eingabe fügt beides hinzu.</translation></message>
<message><source>Zone: click its corners on the floor, or drag a rectangle.</source><translation>Zone: ihre Ecken auf dem Boden anklicken oder ein Rechteck aufziehen.</translation></message>
<message><source>along %1</source><translation>Länge %1</translation></message>
<message><source>area %1, round it %2</source><translation>Fläche %1, Umfang %2</translation></message>
<message><source>bearing %1</source><translation>Richtung %1</translation></message>
<message><source>ceiling</source><translation>Decke</translation></message>
<message><source>height above the floor</source><translation>Höhe über dem Boden</translation></message>
<message><source>must be seen to</source><translation>zu sehen sein muss</translation></message>
<message><source>nothing yet</source><translation>noch nichts</translation></message>
<message><source>pole</source><translation>Mast</translation></message>
<message><source>wall</source><translation>Wand</translation></message>
<message><source>Containment</source><translation>Kabeltrasse</translation></message>
<message><source>Housing</source><translation>Gehäuse</translation></message>
<message><source>Measure</source><translation>Messen</translation></message>
<message><source>Mounting line</source><translation>Montagelinie</translation></message>
<message><source>Zone</source><translation>Zone</translation></message>
<message><source> (preview)</source><translation> (Vorschau)</translation></message>
<message><source>%1 %</source><translation>%1 %</translation></message>
<message><source>%1 becomes %2</source><translation>aus %1 wird %2</translation></message>
<message><source>%1 to %2 %</source><translation>%1 bis %2 %</translation></message>
<message numerus="yes"><source>&amp;Everywhere it is used (%n housings)</source><translation><numerusform>&amp;Überall, wo es vorkommt (%n Gehäuse)</numerusform><numerusform>&amp;Überall, wo es vorkommt (%n Gehäuse)</numerusform></translation></message>
<message><source>&amp;Instead</source><translation>&amp;Stattdessen</translation></message>
<message><source>&amp;Swap</source><translation>&amp;Tauschen</translation></message>
<message><source>All aims and streams stay as they are.</source><translation>Alle Ausrichtungen und Ströme bleiben, wie sie sind.</translation></message>
<message><source>Now</source><translation>Jetzt</translation></message>
<message><source>Swap %1 for %2</source><translation>%1 gegen %2 tauschen</translation></message>
<message><source>Swap the model of %1</source><translation>Modell von %1 tauschen</translation></message>
<message><source>Swap, and it is looked at; undo brings all back.</source><translation>Tauschen, und es wird angesehen; Rückgängig holt alles zurück.</translation></message>
<message><source>The brief</source><translation>Die Aufgabe</translation></message>
<message><source>The catalogue has no other housing: add one to it first.</source><translation>Der Katalog hat kein anderes Gehäuse: erst eines hinzufügen.</translation></message>
<message><source>What changes</source><translation>Was sich ändert</translation></message>
<message><source>Typed length or place</source><translation>Eingetippte Länge oder Ort</translation></message>
<message><source>nothing is asked for just now</source><translation>gerade wird nichts gefragt</translation></message>
<message><source>%1 is no picture that can be read</source><translation>%1 ist kein lesbares Bild</translation></message>
<message><source>&amp;Erase the underlay</source><translation>Unterlage &amp;löschen</translation></message>
<message><source>&amp;Underlay</source><translation>&amp;Unterlage</translation></message>
<message><source>&amp;Underlay ...</source><translation>&amp;Unterlage ...</translation></message>
<message><source>A picture of a plan</source><translation>Bild eines Plans</translation></message>
<message><source>Click the other end of that length.</source><translation>Das andere Ende dieser Länge anklicken.</translation></message>
<message><source>Erase the underlay</source><translation>Unterlage löschen</translation></message>
<message><source>Lay a drawing under the plan</source><translation>Zeichnung unter den Plan legen</translation></message>
<message><source>Pictures (*.png *.jpg *.jpeg *.svg)</source><translation>Bilder (*.png *.jpg *.jpeg *.svg)</translation></message>
<message><source>Sc&amp;ale the underlay</source><translation>Unterlage in den &amp;Maßstab bringen</translation></message>
<message><source>Scale the drawing: click one end of a length on it that you know.</source><translation>Maßstab: auf der Zeichnung ein Ende einer bekannten Länge anklicken.</translation></message>
<message><source>Scale the underlay</source><translation>Unterlage in den Maßstab bringen</translation></message>
<message><source>Type how long it is, or where both ends are: 0;0 to 12;0. Enter scales.</source><translation>Eintippen, wie lang sie ist oder wo beide Enden liegen: 0;0 to 12;0. Eingabe schließt ab.</translation></message>
<message><source>distance between them</source><translation>Abstand der beiden</translation></message>
<message><source>there is no drawing under this storey</source><translation>unter diesem Geschoss liegt keine Zeichnung</translation></message>
<message><source>Scale a drawing</source><translation>Maßstab der Zeichnung</translation></message>
<message><source>Done again: %1</source><translation>Wiederholt: %1</translation></message>
<message><source>Saved, but no copy of the file as it was could be kept: %1</source><translation>Gespeichert, aber die Datei, wie sie war, konnte nicht aufgehoben werden: %1</translation></message>
<message><source>Take what another program wrote</source><translation>Übernehmen, was ein anderes Programm schrieb</translation></message>
<message><source>Undone: %1</source><translation>Rückgängig gemacht: %1</translation></message>
<message><source>%1, stored aim %2 of %3</source><translation>%1, gespeicherte Ausrichtung %2 von %3</translation></message>
<message><source>%1, stored aim %2</source><translation>%1, gespeicherte Ausrichtung %2</translation></message>
<message><source>Ne&amp;xt stored aim</source><translation>Nä&amp;chste gespeicherte Ausrichtung</translation></message>
<message><source>St&amp;ore another aim</source><translation>Weitere Ausrichtung &amp;speichern</translation></message>
<message><source>Take this stored aim a&amp;way</source><translation>Gespeicherte Ausrichtung ent&amp;fernen</translation></message>
<message><source>Store another aim of %1</source><translation>Weitere Ausrichtung von %1 speichern</translation></message>
<message><source>Take a stored aim of %1 away</source><translation>Gespeicherte Ausrichtung von %1 entfernen</translation></message>
<message><source>Select the imager whose aims are meant.</source><translation>Den Sensor wählen, um dessen Ausrichtungen es geht.</translation></message>
<message><source>This imager has one aim. Store another to have several.</source><translation>Dieser Sensor hat nur eine Ausrichtung. Für mehrere eine weitere speichern.</translation></message>
<message><source>rule</source><translation>Regel</translation></message>
<message><source>days kept</source><translation>Vorhaltung in Tagen</translation></message>
<message><source>longest gap</source><translation>längste Lücke</translation></message>
<message><source>seconds in view</source><translation>Sekunden im Bild</translation></message>
<message><source>zones lost</source><translation>verlorene Zonen</translation></message>
<message><source>frames a second</source><translation>Bilder je Sekunde</translation></message>
<message><source>money</source><translation>Kosten</translation></message>
<message><source>, without {}</source><translation>, ohne {}</translation></message>
<message><source>and {} more, not shown here</source><translation>und {} weitere, hier nicht gezeigt</translation></message>
<message><source>at most {}</source><translation>höchstens {}</translation></message>
<message><source>hidden</source><translation>verdeckt</translation></message>
<message><source>masked</source><translation>ausgeblendet</translation></message>
<message><source>met</source><translation>erfüllt</translation></message>
<message><source>not met</source><translation>nicht erfüllt</translation></message>
<message><source>out of frame</source><translation>nicht im Bild</translation></message>
<message><source>served</source><translation>abgedeckt</translation></message>
<message><source>too coarse</source><translation>zu grob</translation></message>
<message><source>too dark</source><translation>zu dunkel</translation></message>
<message><source>too steep</source><translation>zu steil</translation></message>
<message><source>turned away</source><translation>abgewandt</translation></message>
<message><source>undecided</source><translation>offen</translation></message>
<message><source>unsharp</source><translation>unscharf</translation></message>
<message><source>{} to {}</source><translation>{} bis {}</translation></message>
<message><source>{} {} % of {}</source><translation>{} {} % von {}</translation></message>
<message><source>monitor</source><translation>überwachen</translation></message>
<message><source>detect</source><translation>detektieren</translation></message>
<message><source>observe</source><translation>beobachten</translation></message>
<message><source>recognise</source><translation>wiedererkennen</translation></message>
<message><source>identify</source><translation>identifizieren</translation></message>
<message><source>inspect</source><translation>begutachten</translation></message>
<message><source>overview</source><translation>überblicken</translation></message>
<message><source>outline</source><translation>umreißen</translation></message>
<message><source>discern</source><translation>unterscheiden</translation></message>
<message><source>perceive</source><translation>wahrnehmen</translation></message>
<message><source>characterise</source><translation>beschreiben</translation></message>
<message><source>validate</source><translation>bestätigen</translation></message>
<message><source>scrutinise</source><translation>genau prüfen</translation></message>
<message><source>{} {} of at most {} px/{}</source><translation>{} {} von höchstens {} px/{}</translation></message>
<message><source>{} {} px/{} of {}</source><translation>{} {} px/{} von {}</translation></message>
<message><source> on {}</source><translation> auf {}</translation></message>
<message><source>2 times</source><translation>2-fach</translation></message>
<message><source>8 and more</source><translation>8 und mehr</translation></message>
<message><source>A computed design is an aid: walk-test before sign-off.</source><translation>Gerechnetes ist eine Hilfe: vor der Abnahme begehen und prüfen.</translation></message>
<message><source>an imager serves</source><translation>ein Sensor deckt ab</translation></message>
<message><source>blind zone</source><translation>tote Zone</translation></message>
<message><source>design</source><translation>Entwurf</translation></message>
<message><source>fields, axes</source><translation>Bildwinkel, Achsen</translation></message>
<message><source>fields, axes, stops</source><translation>Bildwinkel, Achsen, Anschläge</translation></message>
<message><source>from above</source><translation>von oben</translation></message>
<message><source>imager in mono</source><translation>Sensor schwarzweiß</translation></message>
<message><source>just met</source><translation>knapp</translation></message>
<message><source>lamp follows imager</source><translation>Leuchte folgt Sensor</translation></message>
<message><source>lamp: off</source><translation>Leuchte: aus</translation></message>
<message><source>lamp: on</source><translation>Leuchte: an</translation></message>
<message><source>lamps: on, off</source><translation>Leuchten: an, aus</translation></message>
<message><source>luminaire</source><translation>Leuchte im Raum</translation></message>
<message><source>margin: found over needed density</source><translation>Spielraum: vorhandene zu nötiger Bilddichte</translation></message>
<message><source>no requirement</source><translation>keine Anforderung</translation></message>
<message><source>none yet</source><translation>noch keine</translation></message>
<message><source>north as drawn</source><translation>Norden wie gezeichnet</translation></message>
<message><source>north is true north</source><translation>geografisch Nord</translation></message>
<message><source>not saved</source><translation>nicht gespeichert</translation></message>
<message><source>overhead</source><translation>über Kopf</translation></message>
<message><source>px/{} between</source><translation>px/{} dazwischen</translation></message>
<message><source>px/{} of a task</source><translation>px/{} einer Aufgabe</translation></message>
<message><source>revision</source><translation>Stand</translation></message>
<message><source>scale</source><translation>Maßstab</translation></message>
<message><source>shown</source><translation>gezeigt</translation></message>
<message><source>situation</source><translation>Situation</translation></message>
<message><source>storey</source><translation>Geschoss</translation></message>
<message><source>tasks</source><translation>Aufgaben</translation></message>
<message><source>the selected imager serves</source><translation>der gewählte Sensor deckt ab</translation></message>
<message><source>the selected imager's frame</source><translation>Bildfeld des gewählten Sensors</translation></message>
<message><source>worst spot</source><translation>schlechteste Stelle</translation></message>
<message><source>×1: lamps' range</source><translation>×1: Reichweite der Leuchten</translation></message>
<message><source>lx level, on the floor</source><translation>lx waagerecht, auf dem Boden</translation></message>
<message><source>lx upright to the camera, {} {} up</source><translation>lx senkrecht zur Kamera, {} {} hoch</translation></message>
<message><source>, {} of at most {} {}</source><translation>, {} von höchstens {} {}</translation></message>
<message><source>, {} of {} {}</source><translation>, {} von {} {}</translation></message>
<message><source>blind {} {}² at {} {}</source><translation>tot {} {}² in {} {} Höhe</translation></message>
<message><source>{} densest: {} of at most {} px/{}, by {}</source><translation>{} am dichtesten: {} von höchstens {} px/{}, durch {}</translation></message>
<message><source>{} worst: {}</source><translation>{} am schlechtesten: {}</translation></message>
<message><source>cables go down</source><translation>Kabel nach unten</translation></message>
<message><source>cables go up</source><translation>Kabel nach oben</translation></message>
<message><source>fibre</source><translation>Glasfaser</translation></message>
<message><source>injector</source><translation>PoE-Injektor</translation></message>
<message><source>containment</source><translation>Kabeltrasse</translation></message>
<message><source>network cable</source><translation>Netzwerkkabel</translation></message>
<message><source>power cable</source><translation>Stromkabel</translation></message>
<message><source>supply</source><translation>Netzteil</translation></message>
<message><source>switch</source><translation>Switch</translation></message>
<message><source>viewer</source><translation>Sichtplatz</translation></message>
<message><source>building</source><translation>Gebäude</translation></message>
<message><source>cable</source><translation>Kabel</translation></message>
<message><source>capped</source><translation>begrenzt</translation></message>
<message><source>crossing of</source><translation>Schnittpunkt von</translation></message>
<message><source>custom</source><translation>eigenes</translation></message>
<message><source>device</source><translation>Gerät</translation></message>
<message><source>disk</source><translation>Platte</translation></message>
<message><source>drawing</source><translation>Zeichnung</translation></message>
<message><source>end of</source><translation>Ende von</translation></message>
<message><source>estimated</source><translation>geschätzt</translation></message>
<message><source>face</source><translation>Gesicht</translation></message>
<message><source>face_child</source><translation>Kindergesicht</translation></message>
<message><source>face_seated</source><translation>Gesicht im Sitzen</translation></message>
<message><source>grid</source><translation>Raster</translation></message>
<message><source>housing</source><translation>Gehäuse</translation></message>
<message><source>imager</source><translation>Sensor</translation></message>
<message><source>in line with</source><translation>in der Flucht von</translation></message>
<message><source>lamp</source><translation>Leuchte</translation></message>
<message><source>light</source><translation>Licht</translation></message>
<message><source>measured</source><translation>gemessen</translation></message>
<message><source>mesh</source><translation>Netzmodell</translation></message>
<message><source>middle of</source><translation>Mitte von</translation></message>
<message><source>mount</source><translation>Halterung</translation></message>
<message><source>mounting line</source><translation>Montagelinie</translation></message>
<message><source>on</source><translation>auf</translation></message>
<message><source>on the face of</source><translation>auf der Fläche von</translation></message>
<message><source>opening</source><translation>Öffnung</translation></message>
<message><source>person</source><translation>Person</translation></message>
<message><source>plate</source><translation>Kennzeichen</translation></message>
<message><source>power</source><translation>Strom</translation></message>
<message><source>right angle</source><translation>rechter Winkel</translation></message>
<message><source>solid</source><translation>Körper</translation></message>
<message><source>square to</source><translation>rechtwinklig zu</translation></message>
<message><source>stated</source><translation>angegeben</translation></message>
<message><source>stock</source><translation>Ware</translation></message>
<message><source>twisted pair</source><translation>Kupferkabel</translation></message>
<message><source>The catalogue of this design has no housings yet: take some by File, Models from a catalogue.</source><translation>Der Katalog dieses Entwurfs hat noch keine Gehäuse: Mit Datei, Modelle aus einem Katalog, kommen welche dazu.</translation></message>
<message><source>%1 %2 %</source><translation>%1 %2 %</translation></message>
<message><source>served by %1</source><translation>abgedeckt von %1</translation></message>
<message numerus="yes"><source>%n models taken from %1; %2 were there already.</source><translation><numerusform>%n Modell aus %1 übernommen; %2 waren schon da.</numerusform><numerusform>%n Modelle aus %1 übernommen; %2 waren schon da.</numerusform></translation></message>
<message><source>&amp;Models from a catalogue ...</source><translation>&amp;Modelle aus einem Katalog ...</translation></message>
<message><source>Catalogues (*.json);;All files (*)</source><translation>Kataloge (*.json);;Alle Dateien (*)</translation></message>
<message><source>Models from a catalogue</source><translation>Modelle aus einem Katalog</translation></message>
<message><source>No model was taken.</source><translation>Kein Modell wurde übernommen.</translation></message>
<message><source>Take models from %1</source><translation>Modelle aus %1 übernehmen</translation></message>
<message><source>%1 is not asked for in this situation: %2</source><translation>%1 ist in dieser Situation nicht verlangt: %2</translation></message>
<message><source>%1 %2: %3</source><translation>%1 %2: %3</translation></message>
<message><source>Each part is taken away by itself and the brief proven again: that takes a while, so it is done when you ask for it.</source><translation>Jedes Teil wird für sich weggenommen und die Aufgabe neu nachgewiesen: Das dauert eine Weile und geschieht deshalb erst auf Verlangen.</translation></message>
<message><source>How far the ranking is</source><translation>Fortschritt der Rangfolge</translation></message>
<message><source>Rank the parts</source><translation>Rangfolge der Teile bilden</translation></message>
<message><source>Stop the ranking</source><translation>Rangfolge abbrechen</translation></message>
<message><source>What is said of the chosen row</source><translation>Was zur gewählten Zeile gesagt ist</translation></message>
<message numerus="yes"><source>With %n parts something falls that no card bridges (open circle).</source><translation><numerusform>Bei %n Teil fällt etwas, das keine Karte überbrückt (offener Kreis).</numerusform><numerusform>Bei %n Teilen fällt etwas, das keine Karte überbrückt (offener Kreis).</numerusform></translation></message>
<message><source> Handbook %1.</source><translation> Handbuch %1.</translation></message>
<message><source>Bill</source><translation>Stückliste</translation></message>
<message><source>Failures</source><translation>Ausfälle</translation></message>
<message><source>No model is chosen whose data sheet would state it (%1).</source><translation>Es ist kein Modell gewählt, dessen Datenblatt es angäbe (%1).</translation></message>
<message><source>The data sheet of %1 does not state it (%2).</source><translation>Das Datenblatt von %1 gibt es nicht an (%2).</translation></message>
<message><source>The data sheet of %1 states it: %2.</source><translation>Das Datenblatt von %1 gibt es an: %2.</translation></message>
<message><source>The design states it: %1.</source><translation>Der Entwurf gibt es an: %1.</translation></message>
<message numerus="yes"><source> %n verdicts are not met as designed: no loss can cost them.</source><translation><numerusform> %n Urteil ist schon im Entwurf nicht erfüllt: Kein Ausfall kann es noch kosten.</numerusform><numerusform> %n Urteile sind schon im Entwurf nicht erfüllt: Kein Ausfall kann sie noch kosten.</numerusform></translation></message>
<message><source>%1 in %2: %3 of %4 left, %5 before</source><translation>%1 in %2: noch %3 von %4, vorher %5</translation></message>
<message><source>%1: no imager is left to run the rule</source><translation>%1: kein Sensor bleibt, der die Regel ausführen kann</translation></message>
<message><source>%1: what was kept of it is lost</source><translation>%1: Die Aufzeichnungen dazu sind verloren</translation></message>
<message numerus="yes"><source>%n imagers are recorded nowhere meanwhile.</source><translation><numerusform>%n Sensor wird so lange nirgends aufgezeichnet.</numerusform><numerusform>%n Sensoren werden so lange nirgends aufgezeichnet.</numerusform></translation></message>
<message><source>; cards bridge %1 h</source><translation>; Karten überbrücken %1 h</translation></message>
<message><source>; undecided then</source><translation>; dann offen</translation></message>
<message><source>A part of the design, taken away by itself.</source><translation>Ein Teil des Entwurfs, für sich weggenommen.</translation></message>
<message><source>By the data sheet of its model, kind.</source><translation>Nach dem Datenblatt seines Modells, kind.</translation></message>
<message><source>Cameras that fail or lose their power: %1.</source><translation>Kameras, die ausfallen oder ihre Versorgung verlieren: %1.</translation></message>
<message><source>Go on by their other supply: %1.</source><translation>Laufen über ihre andere Versorgung weiter: %1.</translation></message>
<message><source>Imagers that reach none of those who take their streams: %1.</source><translation>Sensoren, die keinen Abnehmer ihrer Ströme mehr erreichen: %1.</translation></message>
<message><source>No requirement falls with it.</source><translation>Keine Anforderung fällt dadurch.</translation></message>
<message><source>Of these: every imager that falls for it has power and a card; hours in the table Recording.</source><translation>Davon: Jeder Sensor, der dafür ausfällt, hat Strom und eine Karte; Stunden in der Tabelle Aufzeichnung.</translation></message>
<message><source>One part at a time, worst first: requirements that stand as designed and then no longer; of these, bridged by cards. Shares are proven bounds.</source><translation>Jeweils ein Teil, das schlimmste zuerst: Anforderungen, die im Entwurf erfüllt sind und dann nicht mehr; davon durch Karten überbrückt. Anteile sind nachgewiesene Schranken.</translation></message>
<message><source>Proven again without it: what stands as designed and then no longer.</source><translation>Ohne das Teil neu nachgewiesen: was im Entwurf erfüllt ist und dann nicht mehr.</translation></message>
<message><source>Recordings lost: %1.</source><translation>Verlorene Aufzeichnungen: %1.</translation></message>
<message><source>a disk of it</source><translation>eine seiner Platten</translation></message>
<message><source>camera</source><translation>Kamera</translation></message>
<message><source>link</source><translation>Strecke</translation></message>
<message><source> At most the cap (%1/rate/mbps).</source><translation> Höchstens die Begrenzung (%1/rate/mbps).</translation></message>
<message><source> By night twice as much, for noise.</source><translation> Nachts wegen des Rauschens das Doppelte.</translation></message>
<message><source> The high end.</source><translation> Das obere Ende.</translation></message>
<message><source>%1 disks of %2 TB (data sheet of %3, capacity/size_tb), level %4, %5 spare, less %6 % that the file system keeps free (%7/disks).</source><translation>%1 Platten zu %2 TB (Datenblatt von %3, capacity/size_tb), RAID-Stufe %4, %5 in Reserve, abzüglich %6 %, die das Dateisystem frei hält (%7/disks).</translation></message>
<message><source>%1 × %2 pixels (%3/size_px) × %4 frames a second (%5).</source><translation>%1 × %2 Pixel (%3/size_px) × %4 Bilder je Sekunde (%5).</translation></message>
<message><source>By its schedule (%1/schedule, active_share).</source><translation>Nach dem Zeitplan (%1/schedule, active_share).</translation></message>
<message><source>Estimated: %1 million pixels a second × bits a pixel of %2, activity %3 × quality %4 (%5).</source><translation>Geschätzt: %1 Millionen Pixel je Sekunde × Bit je Pixel von %2, Bewegung %3 × Qualität %4 (%5).</translation></message>
<message><source>Its size over the rate of all recorded streams of its housing.</source><translation>Ihre Größe geteilt durch die Rate aller aufgezeichneten Ströme ihres Gehäuses.</translation></message>
<message><source>Longest days × usable / needed: all its streams shortened alike.</source><translation>Längste Vorhaltung in Tagen × nutzbar / nötig: alle Ströme gleichmäßig verkürzt.</translation></message>
<message><source>Measured on the clip of evidence %1 (%2): its mean.</source><translation>An der Aufnahme des Belegs %1 (%2) gemessen: ihr Mittel.</translation></message>
<message><source>Measured on the clip of evidence %1 (%2): the 95th percentile over windows of a second.</source><translation>An der Aufnahme des Belegs %1 (%2) gemessen: das 95. Perzentil über Fenster von einer Sekunde.</translation></message>
<message><source>No disks are stated (%1/disks).</source><translation>Es sind keine Platten angegeben (%1/disks).</translation></message>
<message><source>No stream that serves it is recorded (services/recording).</source><translation>Kein Strom, der sie abdeckt, wird aufgezeichnet (services/recording).</translation></message>
<message><source>Rate / 8 × 86 400 s × %1 days × %2 of the day.</source><translation>Rate / 8 × 86 400 s × %1 Tage × %2 des Tages.</translation></message>
<message><source>Recorded streams of the imagers that serve it: %1.</source><translation>Aufgezeichnete Ströme der Sensoren, die sie abdecken: %1.</translation></message>
<message><source>So many (%1/disks/count); so many of the same model and level hold the high end.</source><translation>So viele sind es (%1/disks/count); so viele desselben Modells und derselben RAID-Stufe fassen das obere Ende.</translation></message>
<message><source>The codec of %1 is not known, and no rate is stated (%1/rate).</source><translation>Der Codec von %1 ist nicht bekannt, und es ist keine Rate angegeben (%1/rate).</translation></message>
<message><source>The stream's mean rate (table Streams).</source><translation>Die mittlere Rate des Stroms (Tabelle Ströme).</translation></message>
<message><source>The sum of the mean rates of its recorded streams (table Streams).</source><translation>Die Summe der mittleren Raten der aufgezeichneten Ströme (Tabelle Ströme).</translation></message>
<message numerus="yes"><source>The sum of what its %n streams take over their days; 1 TB is 10^12 bytes.</source><translation><numerusform>Was sein %n Strom über seine Tage belegt; 1 TB sind 10^12 Byte.</numerusform><numerusform>Die Summe dessen, was seine %n Ströme über ihre Tage belegen; 1 TB sind 10^12 Byte.</numerusform></translation></message>
<message><source>assumed: the stream states none</source><translation>angenommen: Der Strom gibt keine an</translation></message>
<message numerus="yes"><source> %n of them have no length.</source><translation><numerusform> %n davon hat keine Länge.</numerusform><numerusform> %n davon haben keine Länge.</numerusform></translation></message>
<message><source> (the design names no currency)</source><translation> (der Entwurf nennt keine Währung)</translation></message>
<message><source> In a year it takes %1 to %2 kWh, half of it by day and half by night.</source><translation> Im Jahr braucht es %1 bis %2 kWh, je zur Hälfte bei Tag und bei Nacht gerechnet.</translation></message>
<message><source> Nothing is asked for.</source><translation> Es ist nichts verlangt.</translation></message>
<message><source>%1 m laid by %2, and a tenth for waste [practice], rounded up to a metre.</source><translation>%1 m verlegt durch %2, dazu ein Zehntel Verschnitt [Praxis], auf ganze Meter aufgerundet.</translation></message>
<message><source>%1 × %2 %3.</source><translation>%1 × %2 %3.</translation></message>
<message><source>All rules onto imagers within what each housing can run (data sheets, shared), solved exactly.</source><translation>Alle Regeln auf Sensoren verteilt, soweit jedes Gehäuse sie ausführen kann (Datenblätter, geteilt), exakt gelöst.</translation></message>
<message><source>Asked for: %1 (%2) [ISO 12944-2].</source><translation>Verlangt: %1 (%2) [ISO 12944-2].</translation></message>
<message><source>Asked for: %1, as it hangs within reach of hands [practice; IEC 62262].</source><translation>Verlangt: %1, da es in Reichweite hängt [Praxis; IEC 62262].</translation></message>
<message><source>Asked for: %1, as the place is %2 (%3) [practice; IEC 60529].</source><translation>Verlangt: %1, da der Ort %2 ist (%3) [Praxis; IEC 60529].</translation></message>
<message><source>Bought by the piece.</source><translation>Wird nach Stück gekauft.</translation></message>
<message><source>Cables are bought by the metre.</source><translation>Kabel werden nach Metern gekauft.</translation></message>
<message><source>Counted on the plan: %1.</source><translation>Auf dem Plan gezählt: %1.</translation></message>
<message><source>Each imager proven by itself to see the rule's region or the strip about its line.</source><translation>Sensoren, die je für sich nachgewiesen das Gebiet der Regel oder den Streifen um ihre Linie sehen.</translation></message>
<message><source>It has no price, so it is not in the total.</source><translation>Es hat keinen Preis und ist deshalb nicht in der Gesamtsumme.</translation></message>
<message><source>Material alone: no labour, no containment, no taxes.</source><translation>Nur Material: keine Arbeit, keine Kabeltrassen, keine Steuern.</translation></message>
<message><source>Material at the catalogue's prices%1, cables with a tenth for waste; no labour, containment or taxes. Cameras that are there already: %2.</source><translation>Material zu Preisen des Katalogs%1, Kabel mit einem Zehntel Verschnitt; ohne Arbeit, Kabeltrassen und Steuern. Kameras im Bestand: %2.</translation></message>
<message><source>Nothing is to be bought.</source><translation>Es ist nichts zu kaufen.</translation></message>
<message><source>The design does not state it: temperature_c (%1).</source><translation>Der Entwurf gibt es nicht an: temperature_c (%1).</translation></message>
<message><source>The design states it: temperature_c (%1).</source><translation>Der Entwurf gibt es an: temperature_c (%1).</translation></message>
<message><source>The ground under it is not known.</source><translation>Der Boden darunter ist nicht bekannt.</translation></message>
<message><source>The height of its fixing (%1/mount/fixing_m) less that of the floor or ground under it.</source><translation>Die Höhe seiner Befestigung (%1/mount/fixing_m) abzüglich der des Bodens oder Geländes darunter.</translation></message>
<message><source>The sum of the lines.</source><translation>Die Summe der Zeilen.</translation></message>
<message numerus="yes"><source>The sum of the lines; %n have no price.</source><translation><numerusform>Die Summe der Zeilen; %n hat keinen Preis.</numerusform><numerusform>Die Summe der Zeilen; %n haben keinen Preis.</numerusform></translation></message>
<message><source>The total against it; undecided where something has no price or no length.</source><translation>Die Gesamtsumme dagegen gehalten; offen, wo etwas keinen Preis oder keine Länge hat.</translation></message>
<message><source>Total</source><translation>Gesamt</translation></message>
<message><source>may be spent: met</source><translation>darf ausgegeben werden: erfüllt</translation></message>
<message><source>may be spent: not met</source><translation>darf ausgegeben werden: nicht erfüllt</translation></message>
<message><source>may be spent: undecided</source><translation>darf ausgegeben werden: offen</translation></message>
<message><source>of material</source><translation>an Material</translation></message>
<message><source>of material, at least</source><translation>an Material, mindestens</translation></message>
<message><source>pieces</source><translation>Stück</translation></message>
<message><source>surroundings of its storey</source><translation>Umgebung seines Geschosses</translation></message>
<message><source>, and the channel loses %1 W over %2 m and the cords at %3 °C (%4).</source><translation>, und der Kanal verliert %1 W auf %2 m samt Anschlusskabeln bei %3 °C (%4).</translation></message>
<message><source>, and the line loses %1 W: P = I (V − I R) from %2 V over %3 m at %4 Ω/km and %5 °C.</source><translation>, und die Leitung verliert %1 W: P = I (V − I R) ab %2 V über %3 m bei %4 Ω/km und %5 °C.</translation></message>
<message><source>, here 0.9 of its nominal voltage</source><translation>, hier 0,9 ihrer Nennspannung</translation></message>
<message><source>, screened</source><translation>, geschirmt</translation></message>
<message><source>: %1 m, of it %2 m up or down to it and %3 m in containment; and %4 m of slack (%5).</source><translation>: %1 m, davon %2 m Abgänge nach oben oder unten und %3 m in Kabeltrassen; dazu %4 m Reserve (%5).</translation></message>
<message><source>; nothing feeds it.</source><translation>; nichts speist sie.</translation></message>
<message><source>; what the cable loses cannot be told.</source><translation>; was das Kabel verliert, lässt sich nicht sagen.</translation></message>
<message><source>An end has no place: the design states none (services/devices, at_m).</source><translation>Ein Ende hat keinen Ort: Der Entwurf gibt keinen an (services/devices, at_m).</translation></message>
<message><source>By the links to it (services/links).</source><translation>Nach den Strecken zu ihr (services/links).</translation></message>
<message><source>Cameras that reach none of those who take their streams if it fails: %1.</source><translation>Kameras, die bei Ausfall keinen Abnehmer ihrer Ströme mehr erreichen: %1.</translation></message>
<message><source>Cameras whose power comes from it, by services/links.</source><translation>Kameras, deren Strom von hier kommt, nach services/links.</translation></message>
<message><source>Classes of the data sheets (power/feeds/poe_class; capacity/poe_class), or the least that allows the draw [IEEE 802.3].</source><translation>Klassen der Datenblätter (power/feeds/poe_class; capacity/poe_class) oder die kleinste, die die Aufnahme zulässt [IEEE 802.3].</translation></message>
<message><source>Fixed cable of a channel: 90 m at 20 °C, less the rise of its loss at %1 °C%2 [ISO/IEC 11801-1, ANSI/TIA-568-C.2].</source><translation>Fest verlegtes Kabel eines Kanals: 90 m bei 20 °C, abzüglich des Dämpfungsanstiegs bei %1 °C%2 [ISO/IEC 11801-1, ANSI/TIA-568-C.2].</translation></message>
<message><source>It draws %1 W (data sheet of %2: %3)</source><translation>Sie nimmt %1 W auf (Datenblatt von %2: %3)</translation></message>
<message><source>Lengths of the links between them: %1 (table Network).</source><translation>Längen der Strecken dazwischen: %1 (Tabelle Netz).</translation></message>
<message><source>No cable is chosen (%1): taken as twisted pair.</source><translation>Es ist kein Kabel gewählt (%1): als Kupferkabel gerechnet.</translation></message>
<message><source>No link leads to anything that gives power (services/links).</source><translation>Keine Strecke führt zu etwas, das Strom liefert (services/links).</translation></message>
<message><source>No way joins the ends: storeys are joined by risers alone.</source><translation>Kein Weg verbindet die Enden: Geschosse verbinden nur Steigtrassen.</translation></message>
<message><source>Nothing feeds it.</source><translation>Nichts speist sie.</translation></message>
<message><source>Several supplies are linked and %1/fed_by names none: the first is taken.</source><translation>Mehrere Versorgungen sind angeschlossen, und %1/fed_by nennt keine: Die erste gilt.</translation></message>
<message><source>Square across the floor, where no way leads</source><translation>Rechtwinklig über die Fläche, wo kein Weg führt</translation></message>
<message><source>The least of what its ends and the cable state: %1, %2, %3 (data sheets, capacity/port_mbps, uplink_mbps).</source><translation>Das Kleinste, was die Enden und das Kabel angeben: %1, %2, %3 (Datenblätter, capacity/port_mbps, uplink_mbps).</translation></message>
<message><source>The most that its class allows: %1 W (data sheet of %2, power/feeds)</source><translation>Das Höchste, was ihre Klasse zulässt: %1 W (Datenblatt von %2, power/feeds)</translation></message>
<message><source>The shortest way along containment and walls</source><translation>Der kürzeste Weg entlang Kabeltrassen und Wänden</translation></message>
<message><source>The sum of what it gives to %1 cameras and %2 devices in this state (%3), the loss of each cable counted.</source><translation>Die Summe dessen, was in diesem Zustand (%3) an Kameras (%1) und Geräte (%2) geliefert wird, der Verlust in jedem Kabel mitgezählt.</translation></message>
<message><source>Volts at the camera in its worst state, P = I (V − I R); of: the supply's data sheet, capacity/out_v; from: the camera's, power/feeds/least_v%1.</source><translation>Volt an der Kamera im schlechtesten Zustand, P = I (V − I R); von: Datenblatt des Netzteils, capacity/out_v; ab: das der Kamera, power/feeds/least_v%1.</translation></message>
<message><source>W h / (V × 0.8 × 0.85) × 1.25 with %1 W on a cold night, %2 h (services/devices/%3/standby_hours) and %4 V; has: data sheet, capacity/battery_ah.</source><translation>W h / (V × 0,8 × 0,85) × 1,25 mit %1 W in kalter Nacht, %2 h (services/devices/%3/standby_hours) und %4 V; vorhanden: Datenblatt, capacity/battery_ah.</translation></message>
<message><source>a cable that is not chosen</source><translation>ein nicht gewähltes Kabel</translation></message>
<message><source>a model that is not there</source><translation>ein fehlendes Modell</translation></message>
<message><source>power/start_w, at least idle_w</source><translation>power/start_w, mindestens idle_w</translation></message>
<message><source>resistance of the cable's data sheet</source><translation>Widerstand nach Datenblatt des Kabels</translation></message>
<message><source>resistance of the worst channel</source><translation>Widerstand des ungünstigsten Kanals</translation></message>
<message><source>%1: %2.</source><translation>%1: %2.</translation></message>
<message><source>fall</source><translation>fallen</translation></message>
<message><source>bridged</source><translation>überbrückt</translation></message>
<message><source>dark</source><translation>ohne Strom</translation></message>
<message><source>cut off</source><translation>abgetrennt</translation></message>
<message><source>requirements that fall</source><translation>Anforderungen, die fallen</translation></message>
<message><source>quantity</source><translation>Menge</translation></message>
<message><source>a piece or metre</source><translation>je Stück oder Meter</translation></message>
<message><source>sum</source><translation>Summe</translation></message>
<message><source>H.264 (assumed)</source><translation>H.264 (angenommen)</translation></message>
<message><source>medium</source><translation>mittel</translation></message>
<message><source>Jan</source><translation>Jan</translation></message>
<message><source>Feb</source><translation>Feb</translation></message>
<message><source>Mar</source><translation>Mär</translation></message>
<message><source>Apr</source><translation>Apr</translation></message>
<message><source>May</source><translation>Mai</translation></message>
<message><source>Jun</source><translation>Jun</translation></message>
<message><source>Jul</source><translation>Jul</translation></message>
<message><source>Aug</source><translation>Aug</translation></message>
<message><source>Sep</source><translation>Sep</translation></message>
<message><source>Oct</source><translation>Okt</translation></message>
<message><source>Nov</source><translation>Nov</translation></message>
<message><source>Dec</source><translation>Dez</translation></message>
<message><source>in the picture</source><translation>im Bild</translation></message>
<message><source>within {} deg of it</source><translation>bis {} Grad daneben</translation></message>
<message><source>or behind the faces</source><translation>oder hinter den Gesichtern</translation></message>
<message><source>behind the faces</source><translation>hinter den Gesichtern</translation></message>
<message><source>hidden by what stands between</source><translation>verdeckt von dem, was dazwischensteht</translation></message>
<message><source>sun up elsewhere</source><translation>Sonne anderswo am Himmel</translation></message>
<message><source>sun down</source><translation>Sonne unter dem Horizont</translation></message>
<message><source>up, elsewhere</source><translation>am Himmel, anderswo</translation></message>
<message><source>behind the faces, hidden by what stands between</source><translation>hinter den Gesichtern, verdeckt von dem, was dazwischensteht</translation></message>
<message><source>low behind the faces</source><translation>tief hinter den Gesichtern</translation></message>
<message><source>near the picture</source><translation>nahe am Bild</translation></message>
<message><source>The sun on {} in {}</source><translation>Die Sonne auf {} im Jahr {}</translation></message>
<message><source>N</source><translation>N</translation></message>
<message><source>S</source><translation>S</translation></message>
<message><source>E</source><translation>O</translation></message>
<message><source>W</source><translation>W</translation></message>
<message><source>hours of a clock at UTC{}, without summer time; what stands in {}; clouds are not counted</source><translation>Uhrzeit in UTC{}, ohne Sommerzeit; was in {} steht; Wolken sind nicht eingerechnet</translation></message>
<message><source>In or near the picture of {}</source><translation>Im Bild von {} oder nahe daran</translation></message>
<message><source>In or near the picture</source><translation>Im Bild oder nahe daran</translation></message>
<message><source> (in {})</source><translation> (in {})</translation></message>
<message><source>Low behind the faces of {}{}</source><translation>Tief hinter den Gesichtern von {}{}</translation></message>
<message><source>no room for: </source><translation>kein Platz für: </translation></message>
<message><source>{} {}, {}: {}</source><translation>{}. {}, {}: {}</translation></message>
<message><source>no single change of aim, zoom, height, place or model mends it</source><translation>keine einzelne Änderung von Ausrichtung, Zoom, Höhe, Ort oder Modell behebt es</translation></message>
<message><source>was %1</source><translation>war %1</translation></message>
<message><source>not met, %1: %2</source><translation>nicht erfüllt, %1: %2</translation></message>
<message><source>undecided, %1: %2</source><translation>offen, %1: %2</translation></message>
<message><source>%1; understood is %2</source><translation>%1; verstanden wird %2</translation></message>
<message><source>%1
at %2, %3</source><translation>%1
bei %2, %3</translation></message>
<message><source>%1 lamp %2</source><translation>%1 Leuchte %2</translation></message>
<message><source>%1 lamp %2 follo&amp;ws</source><translation>%1 Leuchte %2 fol&amp;gt</translation></message>
<message><source>%1, aim %2</source><translation>%1, Ausrichtung %2</translation></message>
<message><source>%1, as wanted</source><translation>%1, wie gewünscht</translation></message>
<message><source>%1*
Chosen, as the design states none</source><translation>%1*
Gewählt, da der Entwurf keine angibt</translation></message>
<message><source>%1, good</source><translation>%1, gut</translation></message>
<message><source>%1, marginal</source><translation>%1, knapp</translation></message>
<message><source>%1, too uneven</source><translation>%1, zu ungleich</translation></message>
<message><source>%1: %2 lx all about, luminaires: %3</source><translation>%1: %2 lx ringsum, Leuchten im Raum: %3</translation></message>
<message><source>%1: being worked out.</source><translation>%1: wird ausgerechnet.</translation></message>
<message><source>%1: names no lights, so that all is taken to be lit well enough</source><translation>%1: nennt kein Licht, daher gilt alles als hell genug</translation></message>
<message><source>%1: no imager is in mono here, or there are more pairings than can be tried.</source><translation>%1: Kein Sensor ist hier schwarzweiß, oder es gibt mehr Paarungen, als sich durchprobieren lassen.</translation></message>
<message><source>Best &amp;pairing</source><translation>Beste &amp;Paarung</translation></message>
<message><source>Best &amp;pairing of %1</source><translation>Beste &amp;Paarung von %1</translation></message>
<message><source>Burns</source><translation>Brennt</translation></message>
<message><source>Focus</source><translation>Fokus</translation></message>
<message><source>Follows</source><translation>Folgt</translation></message>
<message><source>Imager</source><translation>Sensor</translation></message>
<message><source>In mono: %1 of %2 imagers. Burning: %3 of %4 lamps.</source><translation>Schwarzweiß: %1 von %2 Sensoren. Es brennen %3 von %4 Leuchten.</translation></message>
<message><source>Lamp</source><translation>Leuchte</translation></message>
<message><source>Lamp of %1</source><translation>Leuchte von %1</translation></message>
<message><source>Lamps</source><translation>Leuchten</translation></message>
<message><source>Least lx</source><translation>min. lx</translation></message>
<message><source>Light</source><translation>Licht</translation></message>
<message><source>Light of each imager</source><translation>Licht jedes Sensors</translation></message>
<message><source>Light on the floor of each zone</source><translation>Licht auf dem Boden jeder Zone</translation></message>
<message><source>Mean lx</source><translation>Mittel lx</translation></message>
<message><source>Meets lx</source><translation>hat lx</translation></message>
<message><source>Mode</source><translation>Bild</translation></message>
<message><source>Most : least</source><translation>max. : min.</translation></message>
<message><source>Most lx</source><translation>max. lx</translation></message>
<message><source>Needs lx</source><translation>braucht lx</translation></message>
<message><source>Pair the lamps of %1</source><translation>Leuchten von %1 paaren</translation></message>
<message><source>Pairings are being tried</source><translation>Paarungen werden durchprobiert</translation></message>
<message><source>Pairings tried on previews: %1; the proof follows once it is set.</source><translation>Auf Vorschauen durchprobierte Paarungen: %1; der Beweis folgt, sobald sie eingestellt ist.</translation></message>
<message><source>Range</source><translation>Reichweite</translation></message>
<message><source>Requirements held: %1 of %2 (as it is set: %3).</source><translation>Erfüllte Anforderungen: %1 von %2 (wie eingestellt: %3).</translation></message>
<message><source>Select a housing with imagers and lamps.</source><translation>Wählen Sie ein Gehäuse mit Sensoren und Leuchten.</translation></message>
<message><source>Sharp</source><translation>Scharf</translation></message>
<message><source>Short: %1.</source><translation>Verfehlt: %1.</translation></message>
<message><source>Without a lamp: %1.</source><translation>Ohne Leuchte: %1.</translation></message>
<message><source>Zone, on its floor</source><translation>Zone, am Boden</translation></message>
<message><source>from %1</source><translation>ab %1</translation></message>
<message><source>group</source><translation>Gruppe</translation></message>
<message><source>infrared, %1 nm</source><translation>infrarot, %1 nm</translation></message>
<message><source>its own cell</source><translation>eigener Fühler</translation></message>
<message><source>lamp %1 follows %2</source><translation>Leuchte %1 folgt %2</translation></message>
<message><source>no</source><translation>nein</translation></message>
<message><source>no F-number stated</source><translation>ohne Blendenzahl</translation></message>
<message><source>no end</source><translation>ohne Ende</translation></message>
<message><source>no exposure stated</source><translation>ohne Belichtungszeit</translation></message>
<message><source>not stated</source><translation>nicht angegeben</translation></message>
<message><source>nowhere</source><translation>nirgends</translation></message>
<message><source>off</source><translation>aus</translation></message>
<message><source>white</source><translation>weiß</translation></message>
<message><source>yes</source><translation>ja</translation></message>
<message><source>"%1" is no aperture</source><translation>„%1“ ist keine Blende</translation></message>
<message><source>"%1" is no exposure time</source><translation>„%1“ ist keine Belichtungszeit</translation></message>
<message><source>"%1" is no unit of length</source><translation>„%1“ ist keine Längeneinheit</translation></message>
<message><source>"%1" is not understood here</source><translation>„%1“ wird hier nicht verstanden</translation></message>
<message><source>%1 (%2): %3 stands %4 m off in its beam and in the picture of %5, and throws its light back; move or turn the lamp or the housing.</source><translation>%1 (%2): %3 steht %4 m entfernt in ihrem Strahl und im Bild von %5 und wirft ihr Licht zurück; versetzen oder drehen Sie die Leuchte oder das Gehäuse.</translation></message>
<message><source>%1 (%2): an exposure of %3 leaves %4 % of the ripple of lamps on the mains at %5 Hz; %6 leaves none.</source><translation>%1 (%2): Eine Belichtung von %3 lässt %4 % vom Flimmern der Leuchten am Netz mit %5 Hz übrig; %6 lässt keines übrig.</translation></message>
<message><source>%1 (%2): looks through %3 %4 m ahead with a lamp of its own on: the pane lights up, and %5 % of the infrared is left there and back.</source><translation>%1 (%2): blickt bei eigener brennender Leuchte durch %3 in %4 m Entfernung: Die Scheibe leuchtet auf, und hin und zurück bleiben %5 % des Infrarots.</translation></message>
<message><source>%1 (%2): nothing is left of its zone once what stands on the floor is taken off, so that nothing was judged.</source><translation>%1 (%2): Von der Zone bleibt nichts, wenn abgezogen ist, was auf dem Boden steht; daher wurde nichts beurteilt.</translation></message>
<message><source>%1 (%2): sees %3 mirrored in %4, at %5, %6 px.</source><translation>%1 (%2): sieht %3 in %4 gespiegelt, bei %5, %6 px.</translation></message>
<message><source>%1 (%2): sees %3 mirrored in its own cover, at %4, %5 px: the cover has a radius of %6 mm, the lens is %7 mm and the lamp %8 mm off its centre, and the ray is thrown back %9</source><translation>%1 (%2): sieht %3 in der eigenen Kuppel gespiegelt, bei %4, %5 px: Die Kuppel hat einen Radius von %6 mm, das Objektiv liegt %7 mm und die Leuchte %8 mm neben ihrer Mitte, und der Strahl wird zurückgeworfen %9</translation></message>
<message><source>%1 (%2): the data sheet of %3 has %4, so that %5.</source><translation>%1 (%2): Das Datenblatt von %3 hat %4: %5.</translation></message>
<message><source>%1 (%2): who stands at about %3 % of the spots that %4 serves has the light behind: at %5 lx fall on the side to the lens and %6 lx on the far side, where %7 times is still marginal. Bright enough to be served, they may stand dark before a bright ground: light them from the camera's side, or look from the light's.</source><translation>%1 (%2): Wer an etwa %3 % der Stellen steht, die %4 abdeckt, hat das Licht im Rücken: bei %5 lx auf der Seite zum Objektiv und %6 lx auf der abgewandten, wo das %7-Fache gerade noch angeht. Hell genug, stehen sie womöglich dunkel vor hellem Grund: von der Kameraseite beleuchten oder von der Lichtseite blicken.</translation></message>
<message><source>%1 deg down</source><translation>%1° abwärts</translation></message>
<message><source>%1 deg up</source><translation>%1° aufwärts</translation></message>
<message><source>%1 is said to hang on %2, and its fixing point (%3) is %4 m away from that.</source><translation>%1 soll an %2 hängen, sein Befestigungspunkt (%3) ist davon aber %4 m entfernt.</translation></message>
<message><source>%1: at %2 a point's image is %3 um wide, more than two of its pixels: it resolves less than its pixels say.</source><translation>%1: Bei %2 ist das Bild eines Punktes %3 µm breit, mehr als zwei Pixel: Es löst weniger auf, als die Pixel sagen.</translation></message>
<message><source>%1: is set to f/%2, but at its zoom its lens opens to f/%3 at most: that is what counts.</source><translation>%1: ist auf f/%2 eingestellt, doch bei diesem Zoom öffnet das Objektiv höchstens bis f/%3: Das zählt.</translation></message>
<message><source>%1: its lens, at (%2) on the site, is inside %3.</source><translation>%1: Das Objektiv, bei (%2) auf dem Gelände, liegt in %3.</translation></message>
<message><source>%1: its zone %2 is there in none of its situations, so that it was never judged.</source><translation>%1: Die Zone %2 gibt es in keiner seiner Situationen; daher wurde es nie beurteilt.</translation></message>
<message><source>%1: keep it in colour for good</source><translation>%1: dauerhaft in Farbe lassen</translation></message>
<message><source>%1: let it switch to mono by the light</source><translation>%1: nach Licht auf Schwarzweiß umschalten lassen</translation></message>
<message><source>%1: open it up from f/%2 to f/%3, as wide as its lens opens; it then gets %4 times the light, and is sharp over less depth</source><translation>%1: von f/%2 auf f/%3 öffnen, so weit das Objektiv öffnet; dann bekommt es das %4-Fache an Licht und ist über weniger Tiefe scharf</translation></message>
<message><source>%1: open it up from f/%2 to f/%3; it then gets %4 times the light, and is sharp over less depth</source><translation>%1: von f/%2 auf f/%3 öffnen; dann bekommt es das %4-Fache an Licht und ist über weniger Tiefe scharf</translation></message>
<message><source>%1: set it to mono for good</source><translation>%1: dauerhaft auf Schwarzweiß stellen</translation></message>
<message><source>1/25, 0.04 or 40 ms</source><translation>1/25, 0,04 oder 40 ms</translation></message>
<message><source>The time zone "%1" is not known here: hours of the sun are those of UTC%2, as the longitude suggests. Write it as the IANA database does, such as Europe/Berlin.</source><translation>Die Zeitzone „%1“ ist hier nicht bekannt: Sonnenstunden sind die von UTC%2, wie der Längengrad nahelegt. Schreiben Sie sie wie die IANA-Datenbank, etwa Europe/Berlin.</translation></message>
<message><source>a least illumination without its F-number</source><translation>eine kleinste Beleuchtung ohne Blendenzahl</translation></message>
<message><source>a least illumination without its exposure time</source><translation>eine kleinste Beleuchtung ohne Belichtungszeit</translation></message>
<message><source>a number is missing</source><translation>eine Zahl fehlt</translation></message>
<message><source>a number is missing before "%1"</source><translation>vor „%1“ fehlt eine Zahl</translation></message>
<message><source>a white lamp of %1 m range, %2 deg wide</source><translation>eine weiße Leuchte von %1 m Reichweite, %2° breit</translation></message>
<message><source>an infrared lamp of %1 m range, %2 deg wide, %3 nm</source><translation>eine Infrarotleuchte von %1 m Reichweite, %2° breit, %3 nm</translation></message>
<message><source>at a bearing of %1 deg, %2</source><translation>in Peilung %1°, %2</translation></message>
<message><source>at character %1 of "%2": %3</source><translation>bei Zeichen %1 von „%2“: %3</translation></message>
<message><source>f/4 or 4</source><translation>f/4 oder 4</translation></message>
<message><source>light is judged by the ranges of lamps alone</source><translation>Licht wird allein nach den Reichweiten der Leuchten beurteilt</translation></message>
<message><source>no least illumination</source><translation>keine kleinste Beleuchtung</translation></message>
<message><source>no turn within its limits keeps it out, so switch the lamp off and light from one that stands apart.</source><translation>keine Drehung innerhalb der Grenzen hält es fern; schalten Sie die Leuchte aus und beleuchten Sie mit einer, die abseits steht.</translation></message>
<message><source>nobody can tell whether %1 lx are enough: it is taken to see</source><translation>ob %1 lx reichen, kann niemand sagen; es gilt als sehend</translation></message>
<message><source>the number is too large</source><translation>die Zahl ist zu groß</translation></message>
<message><source>the slab of %1</source><translation>der Decke von %1</translation></message>
<message><source>tilted %1 deg farther down it does not.</source><translation>%1° weiter abwärts geneigt tut es das nicht.</translation></message>
<message><source>tilted %1 deg up it does not.</source><translation>%1° aufwärts geneigt tut es das nicht.</translation></message>
<message><source>turned %1 deg to the left it does not.</source><translation>%1° nach links gedreht tut es das nicht.</translation></message>
<message><source>turned %1 deg to the right it does not.</source><translation>%1° nach rechts gedreht tut es das nicht.</translation></message>
<message><source>Light of the situa&amp;tion</source><translation>&amp;Licht der Situation</translation></message>
<message><source>%1 px</source><translation>%1 px</translation></message>
<message><source>person: %1</source><translation>Person: %1</translation></message>
<message><source>The housing &amp;unrolled</source><translation>Gehäuse ab&amp;gerollt</translation></message>
<message><source>Select a housing first: its imagers come as one picture.</source><translation>Wählen Sie zuerst ein Gehäuse: Seine Sensoren kommen als ein Bild.</translation></message>
<message><source>Hei&amp;ght of who stands at a mark ...</source><translation>Gr&amp;öße dessen, der an einer Marke steht ...</translation></message>
<message><source>Who stands at a mark</source><translation>Wer an einer Marke steht</translation></message>
<message><source>Height, with its unit:</source><translation>Größe, mit Einheit:</translation></message>
<message><source>Who stands at a mark is %1 tall. Click in a print to put somebody there.</source><translation>Wer an einer Marke steht, ist %1 groß. Klicken Sie in einen Abzug, um jemanden hinzustellen.</translation></message>
<message><source>Marked %1, %2 above the floor.</source><translation>Markiert %1, %2 über dem Boden.</translation></message>
<message><source>&amp;Faces, plates and charts</source><translation>&amp;Gesichter, Kennzeichen und Testtafeln</translation></message>
<message><source>Select a requirement about what is seen: its worst and its best spot are photographed.</source><translation>Wählen Sie eine Anforderung an das Gesehene: Ihre schlechteste und ihre beste Stelle werden fotografiert.</translation></message>
<message><source>Faces, plates and charts of %1</source><translation>Gesichter, Kennzeichen und Testtafeln von %1</translation></message>
<message><source>%1 unrolled</source><translation>%1 abgerollt</translation></message>
<message><source>Progress of the page</source><translation>Fortschritt der Seite</translation></message>
<message><source>Computed picture. Geometry and pixels follow the design; tones of surfaces and daylight are plausible, not measured. An aid: walk-test before sign-off.</source><translation>Berechnetes Bild. Geometrie und Pixel folgen dem Entwurf; Tönung der Flächen und Tageslicht sind plausibel, nicht gemessen. Eine Hilfe: vor der Abnahme begehen.</translation></message>
<message><source>Nothing of the zone of %1 is left to stand on.</source><translation>Von der Zone von %1 bleibt nichts, worauf man stehen könnte.</translation></message>
<message><source>%1 has no imager that looks anywhere.</source><translation>%1 hat keinen Sensor, der irgendwohin blickt.</translation></message>
<message><source>%1 unrolled is too large a picture.</source><translation>%1 abgerollt ist ein zu großes Bild.</translation></message>
<message><source>%1: being photographed.</source><translation>%1: wird fotografiert.</translation></message>
<message><source>%1. One pixel of the page is one of the screen.</source><translation>%1. Ein Pixel der Seite ist eines des Bildschirms.</translation></message>
<message><source>Save the page</source><translation>Seite sichern</translation></message>
<message><source>Worst spot</source><translation>Schlechteste Stelle</translation></message>
<message><source>Best spot</source><translation>Beste Stelle</translation></message>
<message><source>{:.0f} px/m can be had at</source><translation>{:.0f} px/m sind zu haben bei</translation></message>
<message><source>not served: {}</source><translation>nicht abgedeckt: {}</translation></message>
<message><source>filmed, though at most {:g} px/m are allowed</source><translation>aufgenommen, obwohl höchstens {:g} px/m erlaubt sind</translation></message>
<message><source>filmed, but no more than is allowed</source><translation>aufgenommen, aber nicht mehr als erlaubt</translation></message>
<message><source>not in its picture as it is aimed now ({})</source><translation>nicht im Bild, wie es jetzt ausgerichtet ist ({})</translation></message>
<message><source>the same
x {}</source><translation>dasselbe
x {}</translation></message>
<message><source>: no imager shows it</source><translation>: kein Sensor zeigt es</translation></message>
<message><source>{}: {}, {:.1f} m away, </source><translation>{}: {}, {:.1f} m entfernt, </translation></message>
<message><source>{:.0f} px/m recorded, {:.0f} captured</source><translation>{:.0f} px/m aufgezeichnet, {:.0f} aufgenommen</translation></message>
<message><source>{:.2f} m tall, true pixels</source><translation>{:.2f} m groß, wahre Pixel</translation></message>
<message><source>
the middle {} of {} px</source><translation>
die mittleren {} von {} px</translation></message>
<message><source>feet</source><translation>Füße</translation></message>
<message><source>
{} beyond its edge</source><translation>
{} jenseits des Randes</translation></message>
<message><source>face, captured</source><translation>Gesicht, aufgenommen</translation></message>
<message><source>plate, 0.52 m wide</source><translation>Kennzeichen, 0,52 m breit</translation></message>
<message><source>chart, 0.4 m</source><translation>Testtafel, 0,4 m</translation></message>
<message><source>at most {:g} px/m allowed</source><translation>höchstens {:g} px/m erlaubt</translation></message>
<message><source>{:g} px/m asked for</source><translation>{:g} px/m verlangt</translation></message>
<message><source>Every picture but the enlarged ones shows one pixel of the recorded stream (where it says so: of the sensor) as one pixel: look at it unscaled. Before compression, which takes detail away. The face is a drawing and the plate a pattern of our own; bars of the chart are one pixel wide at 125, 250, 500, 1000 and 2000 px/m. An aid: walk-test before sign-off.</source><translation>Jedes Bild außer den vergrößerten zeigt ein Pixel des aufgezeichneten Stroms (wo es dasteht: des Sensors) als ein Pixel: unskaliert ansehen. Vor der Komprimierung, die Einzelheiten nimmt. Das Gesicht ist eine Zeichnung und das Kennzeichen ein eigenes Muster; die Balken der Testtafel sind bei 125, 250, 500, 1000 und 2000 px/m ein Pixel breit. Eine Hilfe: vor der Abnahme begehen.</translation></message>
<message><source>No imager can be made to show zone {}</source><translation>Kein Sensor lässt sich so richten, dass er die Zone {} zeigt</translation></message>
<message><source>, %1 % of the light that is enough</source><translation>, %1 % des Lichts, das reicht</translation></message>
<message><source>, its lens, set so, is sharp nowhere</source><translation>, das Objektiv ist so eingestellt nirgends scharf</translation></message>
<message><source>, %1 ahead, sharp from %2</source><translation>, %1 voraus, scharf ab %2</translation></message>
<message><source>, %1 ahead, sharp to %2</source><translation>, %1 voraus, scharf bis %2</translation></message>
<message><source>%1; drag it onto the plan</source><translation>%1; auf den Plan ziehen</translation></message>
<message><source>%1 m</source><translation>%1 m</translation></message>
<message><source>The model says that its lamps run together: ask whether they can follow imagers one by one.</source><translation>Das Modell sagt, dass seine Leuchten gemeinsam laufen: Fragen Sie, ob sie Sensoren einzeln folgen können.</translation></message>
<message><source>What the lamp follows</source><translation>Wem die Leuchte folgt</translation></message>
<message><source>Set the lamps so</source><translation>Leuchten so einstellen</translation></message>
</context>
<context>
<name>Fields</name>
<message><source>base</source><translation>Unterkante</translation></message>
<message><source>Cable's own wa&amp;y</source><translation>Eigener &amp;Weg eines Kabels</translation></message>
<message><source>cold night</source><translation>kalte Nacht</translation></message>
<message><source>start</source><translation>Anlauf</translation></message>
<message><source>Bend the way of %1</source><translation>Weg von %1 biegen</translation></message>
<message><source>B&amp;end the found way of a cable</source><translation>Gefundenen Weg eines Kabels bi&amp;egen</translation></message>
<message><source>Let a cable &amp;find its way again</source><translation>Ein Kabel seinen Weg wieder &amp;finden lassen</translation></message>
<message><source>%1 has a way of its own, or none has been found for it yet.</source><translation>%1 hat einen eigenen Weg, oder es ist noch keiner gefunden.</translation></message>
<message><source>%1 has no way of its own.</source><translation>%1 hat keinen eigenen Weg.</translation></message>
<message><source>Bend it</source><translation>Biegen</translation></message>
<message><source>Choose a cable first: a row of the table Network.</source><translation>Zuerst ein Kabel wählen: eine Zeile der Tabelle Netzwerk.</translation></message>
<message><source>Click on the plan where the cable bends.</source><translation>Auf dem Plan klicken, wo das Kabel abbiegt.</translation></message>
<message><source>Draw its way</source><translation>Weg zeichnen</translation></message>
<message><source>Find it again</source><translation>Wieder finden</translation></message>
<message><source>Its own way is taken away; a way is found for it.</source><translation>Der eigene Weg wird entfernt; ein Weg wird gefunden.</translation></message>
<message><source>Let %1 find its way</source><translation>%1 den Weg finden lassen</translation></message>
<message><source>The way that was found becomes its own, to be pulled point by point.</source><translation>Der gefundene Weg wird zum eigenen und lässt sich Punkt für Punkt ziehen.</translation></message>
<message><source>As far as its disks or its card hold them, all its streams shortened alike.</source><translation>Soweit die Platten oder die Karte sie halten; alle Ströme gleichermaßen gekürzt.</translation></message>
<message><source>Days held against days asked for: met where the high end of the rates leaves as many, not met where even the low end does not.</source><translation>Gehaltene Tage gegen verlangte Tage: erfüllt, wo auch das obere Ende der Raten so viele lässt, nicht erfüllt, wo selbst das untere Ende sie nicht lässt.</translation></message>
<message><source>How much its disks or its card hold is not stated.</source><translation>Wie viel die Platten oder die Karte halten, ist nicht angegeben.</translation></message>
<message><source>Of each imager that serves it the stream kept longest, of these the least, as far as disks and cards hold it: %1 (services/recording).</source><translation>Von jedem Bildgeber, der sie bedient, der am längsten aufbewahrte Strom, davon der kürzeste, soweit Platten und Karten ihn halten: %1 (services/recording).</translation></message>
<message><source>The longest of what is recorded on it (services/recording, days).</source><translation>Die längste Dauer dessen, was darauf aufgezeichnet wird (services/recording, days).</translation></message>
<message><source>days held</source><translation>Tage gehalten</translation></message>
<message><source>verdict</source><translation>Urteil</translation></message>
<message><source>unit</source><translation>Einheit</translation></message>
<message><source>%1 (table Streams)</source><translation>%1 (Tabelle Ströme)</translation></message>
<message><source>Along its route (%1)</source><translation>Entlang der angegebenen Route (%1)</translation></message>
<message><source>Along the way drawn for it (%1)</source><translation>Entlang dem dafür gezeichneten Weg (%1)</translation></message>
<message><source>Along the way drawn for it (%1), which wins over its route</source><translation>Entlang dem dafür gezeichneten Weg (%1), der vor der angegebenen Route gilt</translation></message>
<message><source>Lengths follow containment and walls, or the way drawn for a cable, drops and slack counted. Mbit/s: the high end, in the fuller direction. Cuts off: cameras, if the link fails.</source><translation>Längen folgen Kabeltrassen und Wänden oder dem für ein Kabel gezeichneten Weg; Abgänge und Reserve sind mitgezählt. Mbit/s: das obere Ende, in der volleren Richtung. Trennt ab: Kameras, wenn die Strecke ausfällt.</translation></message>
<message><source>The sum of the peaks of the streams that it carries, in the fuller direction: %1; on average %2 Mbit/s.</source><translation>Die Summe der Spitzen der Ströme, die es trägt, in der volleren Richtung: %1; im Mittel %2 Mbit/s.</translation></message>
<message><source>Choose the cable first: a row of the table Network, or its way on the plan.</source><translation>Zuerst das Kabel wählen: eine Zeile der Tabelle Netzwerk oder seinen Weg auf dem Plan.</translation></message>
<message><source>Draw the way of %1</source><translation>Weg von %1 zeichnen</translation></message>
<message><source>The way of %1: click where it bends on its way from %2 to %3; Enter ends.</source><translation>Der Weg von %1: klicken, wo es auf dem Weg von %2 nach %3 abbiegt; Eingabe beendet.</translation></message>
<message><source>no cable is chosen</source><translation>Kein Kabel ist gewählt</translation></message>
<message><source>A cable's own way</source><translation>Eigener Weg eines Kabels</translation></message>
<message numerus="yes"><source>%n streams, recorded for %1 days</source><translation><numerusform>%n Strom, aufgezeichnet für %1 Tage</numerusform><numerusform>%n Ströme, aufgezeichnet für %1 Tage</numerusform></translation></message>
<message><source>slack</source><translation>Reserve</translation></message>
</context>
<context>
<name>sentences</name>
<message><source>%1: turn %2 deg to the right (pan %3)</source><translation>%1: %2° nach rechts drehen (Schwenk %3)</translation></message>
<message><source>%1: turn %2 deg to the left (pan %3)</source><translation>%1: %2° nach links drehen (Schwenk %3)</translation></message>
<message><source>%1: tilt %2 deg down (tilt %3)</source><translation>%1: %2° nach unten neigen (Neigung %3)</translation></message>
<message><source>%1: tilt %2 deg up (tilt %3)</source><translation>%1: %2° nach oben neigen (Neigung %3)</translation></message>
<message><source>%1: turn %2 deg to the right (pan %3) and tilt %4 deg down (tilt %5)</source><translation>%1: %2° nach rechts drehen (Schwenk %3) und %4° nach unten neigen (Neigung %5)</translation></message>
<message><source>%1: turn %2 deg to the right (pan %3) and tilt %4 deg up (tilt %5)</source><translation>%1: %2° nach rechts drehen (Schwenk %3) und %4° nach oben neigen (Neigung %5)</translation></message>
<message><source>%1: turn %2 deg to the left (pan %3) and tilt %4 deg down (tilt %5)</source><translation>%1: %2° nach links drehen (Schwenk %3) und %4° nach unten neigen (Neigung %5)</translation></message>
<message><source>%1: turn %2 deg to the left (pan %3) and tilt %4 deg up (tilt %5)</source><translation>%1: %2° nach links drehen (Schwenk %3) und %4° nach oben neigen (Neigung %5)</translation></message>
<message><source>%1: zoom from %2 to %3 mm</source><translation>%1: von %2 auf %3 mm zoomen</translation></message>
<message><source>%1: zoom from %2 to %3 deg across</source><translation>%1: von %2 auf %3° Bildwinkel zoomen</translation></message>
<message><source>%1: fix it %2 m higher, at %3 m above the floor</source><translation>%1: %2 m höher befestigen, %3 m über dem Boden</translation></message>
<message><source>%1: fix it %2 m lower, at %3 m above the floor</source><translation>%1: %2 m tiefer befestigen, %3 m über dem Boden</translation></message>
<message><source>%1: move it %2 m along %3, to (%4, %5)</source><translation>%1: %2 m entlang %3 versetzen, nach (%4, %5)</translation></message>
<message><source>%1: take a %2 instead of a %3</source><translation>%1: %2 statt %3 nehmen</translation></message>
<message><source>%1: let lamp %2 burn with the group</source><translation>%1: Leuchte %2 mit der Gruppe brennen lassen</translation></message>
<message><source>%1: let lamp %2 follow %3</source><translation>%1: Leuchte %2 soll %3 folgen</translation></message>
<message><source>%1: expose for %2 at most instead of %3</source><translation>%1: höchstens %2 belichten statt %3</translation></message>
<message><source>%1: expose for %2 at most instead of %3, which smears a target at %4 m/s over %5 px</source><translation>%1: höchstens %2 belichten statt %3; das verwischt ein Ziel mit %4 m/s über %5 px</translation></message>
<message><source>%1: focus it at %2 m</source><translation>%1: auf %2 m scharf stellen</translation></message>
<message><source>%1: stop it down from f/%2 to f/%3; it then asks for %4 times the light</source><translation>%1: von f/%2 auf f/%3 abblenden; dann braucht es das %4-Fache an Licht</translation></message>
<message><source>%1: turn it to a bearing of %2 deg, %3 deg down</source><translation>%1: auf Richtung %2° drehen, %3° nach unten</translation></message>
<message><source>%1: add %2 where it hangs, at a bearing of %3 deg, %4 deg down</source><translation>%1: am selben Ort %2 ergänzen, Richtung %3°, %4° nach unten</translation></message>
<message><source>runs on %1</source><translation>läuft auf %1</translation></message>
<message><source>nothing serves it</source><translation>nichts deckt es ab</translation></message>
<message><source>no stream that serves it is recorded</source><translation>kein Strom, der es abdeckt, wird aufgezeichnet</translation></message>
<message><source>nothing says what is recorded (services, recording)</source><translation>nirgends steht, was aufgezeichnet wird (services, recording)</translation></message>
<message><source>no imager is left that can run it beside the other rules</source><translation>neben den anderen Regeln kann kein Sensor sie mehr ausführen</translation></message>
<message><source>the search for imagers to run it was given up</source><translation>die Suche nach Sensoren dafür wurde abgebrochen</translation></message>
<message><source>%1 imagers see it well enough to run it</source><translation>%1 Sensoren sehen es gut genug dafür</translation></message>
<message><source>%1 asked for</source><translation>%1 verlangt</translation></message>
<message><source>nearest: %1</source><translation>am nächsten: %1</translation></message>
<message><source>the model of %1 does not say what it can run</source><translation>das Modell von %1 sagt nicht, was es ausführen kann</translation></message>
<message><source>who walks through is in it for %1 s on average, %2 s are asked for</source><translation>wer durchgeht, ist im Mittel %1 s darin; verlangt sind %2 s</translation></message>
<message><source>%1 days or more: %2</source><translation>%1 Tage oder mehr: %2</translation></message>
<message><source>%1 days at the high end of the rates, %2 at the low end</source><translation>%1 Tage am oberen Ende der Raten, %2 am unteren</translation></message>
<message><source>%1 days at most of %2</source><translation>höchstens %1 Tage von %2</translation></message>
<message><source>what %1 can hold is not stated</source><translation>was %1 fasst, ist nicht angegeben</translation></message>
<message><source>%1 alone serves a part of it and is not recorded</source><translation>%1 allein deckt einen Teil ab und wird nicht aufgezeichnet</translation></message>
<message><source>%1 alone serve a part of it and are not recorded</source><translation>%1 allein decken einen Teil ab und werden nicht aufgezeichnet</translation></message>
<message><source>%1 gives %2 frames a second, %3 are asked for</source><translation>%1 gibt %2 Bilder je Sekunde, verlangt sind %3</translation></message>
<message><source>not every stream states its frame rate</source><translation>nicht jeder Strom nennt seine Bildrate</translation></message>
<message><source>%1 of material, of at most %2</source><translation>%1 an Material, von höchstens %2</translation></message>
<message><source>its zone is judged in no situation</source><translation>seine Zone wird in keiner Situation beurteilt</translation></message>
<message><source>a gap of %1 m or more in %2, where %3 m may be</source><translation>eine Lücke von %1 m oder mehr in %2, wo %3 m sein dürfen</translation></message>
<message><source>no gap: all of the zone is served</source><translation>keine Lücke: die ganze Zone ist abgedeckt</translation></message>
<message><source>no gap is longer than %1 m, where %2 m may be</source><translation>keine Lücke ist länger als %1 m, wo %2 m sein dürfen</translation></message>
<message><source>the longest gap, in %1, is of %2 to %3 m, where %4 m may be</source><translation>die längste Lücke, in %1, misst %2 bis %3 m, wo %4 m sein dürfen</translation></message>
<message><source>a target that stands still is in view as long as it stands</source><translation>ein Ziel, das steht, ist im Bild, solange es steht</translation></message>
<message><source>who walks through at %1 m/s is in view for %2 to %3 s on average in %4, %5 s are asked for</source><translation>wer mit %1 m/s durchgeht, ist im Mittel %2 bis %3 s im Bild in %4; verlangt sind %5 s</translation></message>
<message><source>no zone falls with any one of them</source><translation>mit keinem einzelnen fällt eine Zone</translation></message>
<message><source>without %1 %2 zones fall (%3), where %4 may</source><translation>ohne %1 fallen %2 Zonen (%3), wo %4 fallen darf</translation></message>
<message><source>without %1 1 zone falls (%2), where %3 may</source><translation>ohne %1 fällt 1 Zone (%2), wo %3 fallen darf</translation></message>
<message><source>without %1 %2 zones fall (%3), perhaps %4, where %5 may</source><translation>ohne %1 fallen %2 Zonen (%3), vielleicht %4, wo %5 fallen darf</translation></message>
<message><source>%1: faces are asked for without the direction in which they look; a camera behind people's backs would count.</source><translation>%1: Gesichter sind verlangt, ohne zu sagen, wohin sie blicken; eine Kamera im Rücken der Leute würde zählen.</translation></message>
<message><source>%1 (%2): at most %3 % of the zone where %4 % is asked for.</source><translation>%1 (%2): höchstens %3 % der Zone, wo %4 % verlangt sind.</translation></message>
<message><source>%1 (%2) without %3: at most %4 % of the zone where %5 % is asked for.</source><translation>%1 (%2) ohne %3: höchstens %4 % der Zone, wo %5 % verlangt sind.</translation></message>
<message><source>%1 (%2): between %3 and %4 % of the zone; %5 % is asked for and lies between.</source><translation>%1 (%2): zwischen %3 und %4 % der Zone; verlangt sind %5 %, das liegt dazwischen.</translation></message>
<message><source>%1 (%2): %3 reaches %4 px/m where at most %5 is allowed.</source><translation>%1 (%2): %3 erreicht %4 px/m, wo höchstens %5 erlaubt sind.</translation></message>
<message><source>%1 serves no spot of any requirement.</source><translation>%1 deckt keine Stelle irgendeiner Anforderung ab.</translation></message>
<message><source>%1 serves nothing that others do not serve as well.</source><translation>%1 deckt nichts ab, was nicht auch andere abdecken.</translation></message>
<message><source>%1 has %2 aims: what only one of them serves is seen a share of the time.</source><translation>%1 hat %2 Ausrichtungen: Was nur eine davon abdeckt, ist nur zeitweise zu sehen.</translation></message>
<message><source>The brief asks for nothing, so that nothing is proven.</source><translation>Die Aufgabe verlangt nichts, also ist nichts nachgewiesen.</translation></message>
<message><source>%1: %2 imagers give no stream that is recorded or viewed as it asks, and are judged on their captured pixels.</source><translation>%1: %2 Sensoren geben keinen Strom, der wie verlangt aufgezeichnet oder betrachtet wird; sie werden nach ihren aufgenommenen Pixeln beurteilt.</translation></message>
<message><source>%1: %2 x %3 of %4 x %5 captured pixels: enlarging adds nothing, and the captured ones are judged.</source><translation>%1: %2 x %3 von %4 x %5 aufgenommenen Pixeln: Vergrößern bringt nichts, beurteilt werden die aufgenommenen.</translation></message>
<message><source>The situations last %1 h together, a year has %2: of the rest nothing is proven.</source><translation>Die Situationen dauern zusammen %1 h, ein Jahr hat %2: Vom Rest ist nichts nachgewiesen.</translation></message>
<message><source>The situations last %1 h together, a year has %2: some of them overlap, or their hours are too many.</source><translation>Die Situationen dauern zusammen %1 h, ein Jahr hat %2: Einige überlappen sich, oder ihre Stunden sind zu viele.</translation></message>
<message><source>%1: its stated fields of view do not fit one lens; that used here misses one of them by %2 deg.</source><translation>%1: Die angegebenen Bildwinkel passen nicht zu einem Objektiv; das hier benutzte verfehlt einen davon um %2°.</translation></message>
<message><source>%1 (%2): the data sheet of %3 has no least illumination, so that nobody can tell whether %4 lx are enough: it is taken to see.</source><translation>%1 (%2): Das Datenblatt von %3 nennt keine Mindestbeleuchtung, niemand weiß also, ob %4 lx genügen: Es gilt als sehend.</translation></message>
<message><source>%1 (%2): the data sheet of %3 has no least illumination, so that light is judged by the ranges of lamps alone.</source><translation>%1 (%2): Das Datenblatt von %3 nennt keine Mindestbeleuchtung; Licht wird also allein nach der Reichweite der Leuchten beurteilt.</translation></message>
<message><source>%1 (%2): is in mono, and no lamp of its housing follows it.</source><translation>%1 (%2): ist schwarzweiß, und keine Leuchte ihres Gehäuses folgt ihm.</translation></message>
<message><source>%1 (%2): %3 shines into its picture from %4 m, at %5, %6 px, with %7 times what lights a target at the lamp's range, %8 deg off the lamp's axis</source><translation>%1 (%2): %3 scheint aus %4 m in sein Bild, bei %5, %6 px, mit dem %7-Fachen dessen, was ein Ziel in der Reichweite der Leuchte beleuchtet, %8° neben der Achse der Leuchte</translation></message>
<message><source>%1 (%2): sees %3 lit from near by: it stands %4 m off %5 in its beam, and shows at %6, %7 px, %8 m off the lamp, with %9 times what lights a target at the lamp's range</source><translation>%1 (%2): sieht %3 von nahem beleuchtet: Es steht %4 m vor %5 in deren Kegel und erscheint bei %6, %7 px, %8 m vor der Leuchte, mit dem %9-Fachen dessen, was ein Ziel in der Reichweite der Leuchte beleuchtet</translation></message>
<message><source>%1 (%2): sees %3 mirrored in %4, at %5, %6 px: %7 m there and back, %8 % thrown back, with %9 times what lights a target at the lamp's range</source><translation>%1 (%2): sieht %3 gespiegelt in %4, bei %5, %6 px: %7 m hin und zurück, %8 % zurückgeworfen, mit dem %9-Fachen dessen, was ein Ziel in der Reichweite der Leuchte beleuchtet</translation></message>
<message><source>%1 (%2): sees %3 mirrored in its own cover, at %4, %5 px: the cover has a radius of %6 mm, the lens is %7 mm and the lamp %8 mm off its centre, and the ray is thrown back %9</source><translation>%1 (%2): sieht %3 gespiegelt in der eigenen Kuppel, bei %4, %5 px: Die Kuppel hat %6 mm Radius, Objektiv und Leuchte liegen %7 und %8 mm neben ihrer Mitte, zurückgeworfen wird der Strahl %9</translation></message>
<message><source>at a bearing of %1 deg, %2 deg down</source><translation>in Peilung %1°, %2° abwärts</translation></message>
<message><source>at a bearing of %1 deg, %2 deg up</source><translation>in Peilung %1°, %2° aufwärts</translation></message>
<message><source>turned %1 deg to the right it does not.</source><translation>%1° nach rechts gedreht nicht mehr.</translation></message>
<message><source>turned %1 deg to the left it does not.</source><translation>%1° nach links gedreht nicht mehr.</translation></message>
<message><source>tilted %1 deg farther down it does not.</source><translation>%1° weiter nach unten geneigt nicht mehr.</translation></message>
<message><source>tilted %1 deg up it does not.</source><translation>%1° nach oben geneigt nicht mehr.</translation></message>
<message><source>with aim %1 turned %2 deg to the right it does not.</source><translation>mit Ausrichtung %1 um %2° nach rechts gedreht nicht mehr.</translation></message>
<message><source>with aim %1 turned %2 deg to the left it does not.</source><translation>mit Ausrichtung %1 um %2° nach links gedreht nicht mehr.</translation></message>
<message><source>with aim %1 tilted %2 deg farther down it does not.</source><translation>mit Ausrichtung %1 um %2° weiter nach unten geneigt nicht mehr.</translation></message>
<message><source>with aim %1 tilted %2 deg up it does not.</source><translation>mit Ausrichtung %1 um %2° nach oben geneigt nicht mehr.</translation></message>
<message><source>no turn that it may make keeps it out, so turn or screen the lamp.</source><translation>keine Drehung, die es machen darf, hält sie heraus, also die Leuchte drehen oder abschirmen.</translation></message>
<message><source>no turn that it may make keeps it out, so move the housing or the lamp off it, or switch the lamp off.</source><translation>keine Drehung, die es machen darf, hält es heraus, also Gehäuse oder Leuchte davon wegrücken oder die Leuchte abschalten.</translation></message>
<message><source>no turn that it may make keeps it out, so move it aside, or light the scene from elsewhere.</source><translation>keine Drehung, die es machen darf, hält sie heraus, also beiseite rücken oder die Szene von anderswo beleuchten.</translation></message>
<message><source>no turn that it may make keeps it out, so switch the lamp off and light from one that stands apart.</source><translation>keine Drehung, die es machen darf, hält sie heraus, also die Leuchte abschalten und mit einer beleuchten, die abseits steht.</translation></message>
<message><source>%1 (%2): looks through %3 %4 m ahead with a lamp of its own on: the pane lights up, and %5 % of the infrared is left there and back. Hang it on the other side, or switch its lamps off and light that side from there.</source><translation>%1 (%2): blickt mit brennender eigener Leuchte durch %3, %4 m voraus: Die Scheibe leuchtet auf, und hin und zurück bleiben %5 % des Infrarots. Auf die andere Seite hängen, oder seine Leuchten abschalten und jene Seite von dort beleuchten.</translation></message>
<message><source>%1 (%2): its lens brings infrared to a focus %3 um behind that of light. Focused at %4 m it is sharp %5 by light and %6 by infrared</source><translation>%1 (%2): Sein Objektiv bildet Infrarot %3 um hinter dem Licht ab. Auf %4 m scharf gestellt, ist es bei Licht %5 scharf und bei Infrarot %6</translation></message>
<message><source>%1 (%2): its lens brings infrared to a focus %3 um before that of light. Focused at %4 m it is sharp %5 by light and %6 by infrared</source><translation>%1 (%2): Sein Objektiv bildet Infrarot %3 um vor dem Licht ab. Auf %4 m scharf gestellt, ist es bei Licht %5 scharf und bei Infrarot %6</translation></message>
<message><source>%1 (%2): its lens brings infrared to a focus %3 um behind that of light. Focused at %4 m it is sharp %5 by light and %6 by infrared. One focus serves both with a lens that is corrected for infrared, or from about f/%7 on.</source><translation>%1 (%2): Sein Objektiv bildet Infrarot %3 um hinter dem Licht ab. Auf %4 m scharf gestellt, ist es bei Licht %5 scharf und bei Infrarot %6. Für beides taugt eine Einstellung mit einem für Infrarot korrigierten Objektiv oder ab etwa f/%7.</translation></message>
<message><source>%1 (%2): its lens brings infrared to a focus %3 um before that of light. Focused at %4 m it is sharp %5 by light and %6 by infrared. One focus serves both with a lens that is corrected for infrared, or from about f/%7 on.</source><translation>%1 (%2): Sein Objektiv bildet Infrarot %3 um vor dem Licht ab. Auf %4 m scharf gestellt, ist es bei Licht %5 scharf und bei Infrarot %6. Für beides taugt eine Einstellung mit einem für Infrarot korrigierten Objektiv oder ab etwa f/%7.</translation></message>
<message><source>from %1 to %2 m</source><translation>von %1 bis %2 m</translation></message>
<message><source>from %1 m on</source><translation>ab %1 m</translation></message>
<message><source>nowhere</source><translation>nirgends</translation></message>
<message><source>focused at %1 m it is sharpest there by infrared, and not by light. One focus serves both with a lens that is corrected for infrared, or from about f/%2 on.</source><translation>auf %1 m gestellt ist es dort bei Infrarot am schärfsten und bei Licht nicht. Für beides taugt eine Einstellung mit einem für Infrarot korrigierten Objektiv oder ab etwa f/%2.</translation></message>
<message><source>no focus makes it sharp there by infrared. One focus serves both with a lens that is corrected for infrared, or from about f/%1 on.</source><translation>keine Einstellung macht es dort bei Infrarot scharf. Für beides taugt eine Einstellung mit einem für Infrarot korrigierten Objektiv oder ab etwa f/%1.</translation></message>
<message><source>%1: focus it at %2 m by light, so that infrared is sharpest at %3 m</source><translation>%1: bei Licht auf %2 m scharf stellen, damit Infrarot bei %3 m am schärfsten ist</translation></message>
<message><source>%1: %2 gives no stream that is recorded or viewed as it asks, and is judged on its captured pixels.</source><translation>%1: %2 gibt keinen Strom, der wie verlangt aufgezeichnet oder betrachtet wird, und wird nach seinen aufgenommenen Pixeln beurteilt.</translation></message>
<message><source>%1 (%2): an exposure of %3 leaves %4 % of the ripple of lamps on the mains at %5 Hz</source><translation>%1 (%2): Eine Belichtung von %3 lässt %4 % der Welligkeit von Leuchten am Netz mit %5 Hz übrig</translation></message>
<message><source>%1 leaves none.</source><translation>%1 lässt keine.</translation></message>
<message><source>only %1 and whole multiples of it leave none, which smears what moves</source><translation>nur %1 und ganze Vielfache davon lassen keine, was Bewegtes verwischt</translation></message>
<message><source>else take luminaires whose drivers do not pulse.</source><translation>sonst Leuchten nehmen, deren Treiber nicht pulsen.</translation></message>
<message><source>%1: at %2 m/s and %3 px/m a target smears over %4 px while %5 exposes for %6; %7 keeps it to %8 px.</source><translation>%1: Bei %2 m/s und %3 px/m verwischt ein Ziel über %4 px, während %5 mit %6 belichtet; %7 hält es bei %8 px.</translation></message>
<message><source>%1: nobody sees infrared lamps burn: keep eyes away from them at close range (IEC 62471); their intensity is not stated, so that no distance can be given. The maker's safety sheet comes first.</source><translation>%1: Infrarotleuchten sieht niemand brennen: Augen aus der Nähe fernhalten (IEC 62471); ihre Stärke ist nicht angegeben, also lässt sich kein Abstand nennen. Das Sicherheitsblatt des Herstellers geht vor.</translation></message>
<message><source>%1: nobody sees infrared lamps burn: keep eyes away from them at close range (IEC 62471); they may be looked at lastingly from %2 m on. The maker's safety sheet comes first.</source><translation>%1: Infrarotleuchten sieht niemand brennen: Augen aus der Nähe fernhalten (IEC 62471); dauernd hineinsehen darf man ab %2 m. Das Sicherheitsblatt des Herstellers geht vor.</translation></message>
<message><source>%1: names no lights, so that every zone is taken to be lit well enough.</source><translation>%1: nennt keine Lichter, also gilt jede Zone als hell genug.</translation></message>
<message><source>%1 (%2): %3 lx at %4 and %5 lx at %6 on its floor, %7: over the %8:1 that is still marginal for a camera (UFC 4-021-02NF, table 4-3): what suits the light end is black at the other. %9 lx where it is least would do</source><translation>%1 (%2): %3 lx bei %4 und %5 lx bei %6 am Boden, %7: über dem %8:1, das für eine Kamera eben noch angeht (UFC 4-021-02NF, Tabelle 4-3): Was zum hellen Ende passt, ist am anderen schwarz. %9 lx am dunkelsten Ort würden genügen</translation></message>
<message><source>or dim what is lightest, or take a camera with a stated range for it.</source><translation>oder das Hellste dimmen oder eine Kamera mit dafür angegebenem Umfang nehmen.</translation></message>
<message><source>%1: the sun stands within %2 degrees of its picture %3 h a year (%4): a hood keeps it off the lens.</source><translation>%1: Die Sonne steht %3 h im Jahr höchstens %2 Grad neben seinem Bild (%4): Eine Blende hält sie vom Objektiv fern.</translation></message>
<message><source>%1: a lamp burns under the same cover as the lens: drops, dust and scratches on it light up before the picture as a veil (common practice, no source). Keep it clean and dry, or light from a lamp that stands apart.</source><translation>%1: Eine Leuchte brennt unter derselben Kuppel wie das Objektiv: Tropfen, Staub und Kratzer darauf leuchten als Schleier vor dem Bild (übliche Praxis, ohne Quelle). Sauber und trocken halten oder mit einer Leuchte beleuchten, die abseits steht.</translation></message>
<message><source>IEC 62676-4:2014 (withdrawn in October 2025): the figures of detect, observe, identify and inspect are from memory; check them against the standard</source><translation>IEC 62676-4:2014 (im Oktober 2025 zurückgezogen): Die Zahlen von detect, observe, identify und inspect sind aus dem Gedächtnis; mit der Norm vergleichen</translation></message>
<message><source>%1 copper cables run outdoors: they need protection against lightning and surges.</source><translation>%1 Kupferkabel verlaufen im Freien: Sie brauchen Schutz gegen Blitz und Überspannung.</translation></message>
<message><source>%1 copper cables lead from a building to something in the open: where that has an earth of its own (a pole, a fence, a container), two earths are joined. Take fibre, or have isolation and protection designed by a licensed person.</source><translation>%1 Kupferkabel führen von einem Gebäude ins Freie: Wo dort eine eigene Erde ist (Mast, Zaun, Container), werden zwei Erden verbunden. Glasfaser nehmen oder Trennung und Schutz von einer zugelassenen Fachkraft planen lassen.</translation></message>
<message><source>%1: copper between two buildings joins two earths: their potentials may differ. Take fibre, or have isolation and protection designed by a licensed person.</source><translation>%1: Kupfer zwischen zwei Gebäuden verbindet zwei Erden: Ihre Potentiale können verschieden sein. Glasfaser nehmen oder Trennung und Schutz von einer zugelassenen Fachkraft planen lassen.</translation></message>
<message><source>%1: if it fails, %2 cameras reach nobody: %3.</source><translation>%1: Fällt es aus, erreichen %2 Kameras niemanden: %3.</translation></message>
<message><source>%1 has no link: nothing carries its pictures.</source><translation>%1 hat keine Strecke: Nichts trägt seine Bilder.</translation></message>
<message><source>Mains, and any connection beyond extra-low voltage, are for licensed people.</source><translation>Netzspannung und jeder Anschluss jenseits von Kleinspannung sind Sache zugelassener Fachkräfte.</translation></message>
<message><source>The rates of %1 of %2 streams are estimates: measure a clip of each kind of scene before disks are ordered.</source><translation>Die Raten von %1 der %2 Ströme sind Schätzungen: Vor dem Bestellen der Platten je Art von Szene einen Clip messen.</translation></message>
<message><source>%1: its model states neither what it draws nor a class, so that nothing is counted for it.</source><translation>%1: Das Modell nennt weder Aufnahme noch Klasse, also wird nichts dafür gezählt.</translation></message>
<message><source>%1: one failed disk loses recordings: its disks are joined without redundancy.</source><translation>%1: Eine defekte Platte kostet Aufzeichnungen: Die Platten sind ohne Redundanz verbunden.</translation></message>
<message><source>%1: hangs on %2, and its model does not say what it draws itself (idle_w): only what it gives on is counted.</source><translation>%1: hängt an %2, und sein Modell sagt nicht, was es selbst aufnimmt (idle_w): Gezählt wird nur, was es weitergibt.</translation></message>
<message><source>The heaviest camera, %1, puts %2 kg on its fixing: whether the ground carries it is for a competent person on site.</source><translation>Die schwerste Kamera, %1, belastet ihre Befestigung mit %2 kg: Ob der Untergrund das trägt, entscheidet eine sachkundige Person vor Ort.</translation></message>
<message><source>%1: hangs %2 m up, within reach of hands, with %3 where %4 is asked for (practice; codes of IEC 60529).</source><translation>%1: hängt %2 m hoch, in Reichweite von Händen, mit %3, wo %4 verlangt ist (Praxis; Kennziffern nach IEC 60529).</translation></message>
<message><source>What %1 cameras have to stand is not said (surroundings of their storey), so that nothing of it is judged.</source><translation>Was %1 Kameras aushalten müssen, ist nicht gesagt (surroundings ihres Geschosses), also wird davon nichts beurteilt.</translation></message>
<message><source>%1: its budget of %2 W covers what is drawn, but the classes of its devices claim %3 W: a switch that allots by class leaves the last ones dark.</source><translation>%1: Sein Budget von %2 W deckt, was aufgenommen wird, doch die Klassen seiner Geräte beanspruchen %3 W: Ein Switch, der nach Klassen zuteilt, lässt die letzten dunkel.</translation></message>
<message><source>%1: %2 m of twisted pair cable where %3 m may be laid at %4 C, cords of %5 m aside.</source><translation>%1: %2 m Kupferkabel, wo bei %4 °C %3 m verlegt werden dürfen, ohne %5 m Anschlusskabel.</translation></message>
<message><source>%1: %2 m of twisted pair cable where %3 m may be laid.</source><translation>%1: %2 m Kupferkabel, wo %3 m verlegt werden dürfen.</translation></message>
<message><source>The model %1 does not state %2: by its %3 V, %4 is taken (%5 of its cameras).</source><translation>Das Modell %1 nennt nicht, %2: Nach seinen %3 V wird %4 angenommen (%5 seiner Kameras).</translation></message>
<message><source>The model %1 does not state %2, so that nothing is judged by it (%3 of its cameras).</source><translation>Das Modell %1 nennt nicht, %2, also wird nichts danach beurteilt (%3 seiner Kameras).</translation></message>
<message><source>what voltage it bears</source><translation>welche Spannung es verträgt</translation></message>
<message><source>from what voltage it works</source><translation>ab welcher Spannung es arbeitet</translation></message>
<message><source>from what voltage it works and what it bears</source><translation>ab welcher Spannung es arbeitet und welche es verträgt</translation></message>
<message><source>at most %1 V</source><translation>höchstens %1 V</translation></message>
<message><source>The model %1 states no corrosion class, and %2 is asked for (%3 of its cameras).</source><translation>Das Modell %1 nennt keine Korrosionsklasse, verlangt ist %2 (%3 seiner Kameras).</translation></message>
<message><source>The model %1 states no ingress protection, and %2 is asked for (%3 of its cameras).</source><translation>Das Modell %1 nennt keine Schutzart, verlangt ist %2 (%3 seiner Kameras).</translation></message>
<message><source>The model %1 states no impact protection, and %2 is asked for (%3 of its cameras).</source><translation>Das Modell %1 nennt keine Stoßfestigkeit, verlangt ist %2 (%3 seiner Kameras).</translation></message>
<message><source>The model %1 states no temperature range, and %2 to %3 C is asked for (%4 of its cameras).</source><translation>Das Modell %1 nennt keinen Temperaturbereich, verlangt ist %2 bis %3 °C (%4 seiner Kameras).</translation></message>
<message><source>%1: %2 TB (%3 TiB) may have to be kept and its disks hold %4 TB (%5 TiB) usable: %6 days of the longest asked for, at the high end of the rates. %7</source><translation>%1: %2 TB (%3 TiB) sind womöglich aufzuheben, und seine Platten fassen nutzbar %4 TB (%5 TiB): %6 Tage der längsten verlangten Dauer, am oberen Ende der Raten. %7</translation></message>
<message><source>%1: %2 TB (%3 TiB) have to be kept and its disks hold %4 TB (%5 TiB) usable: %6 days of the longest asked for, at the high end of the rates. %7</source><translation>%1: %2 TB (%3 TiB) sind aufzuheben, und seine Platten fassen nutzbar %4 TB (%5 TiB): %6 Tage der längsten verlangten Dauer, am oberen Ende der Raten. %7</translation></message>
<message><source>%1 such disks would do.</source><translation>%1 solche Platten würden genügen.</translation></message>
<message><source>No number of such disks would do at this level: disks of %1 TB would, or %2 of these at level %3.</source><translation>Keine Zahl solcher Platten genügt bei diesem Level: Platten mit %1 TB würden genügen, oder %2 dieser bei Level %3.</translation></message>
<message><source>%1: size of its recorded streams differs: %2 has %3 where %4 has %5.</source><translation>%1: Die Größe seiner aufgezeichneten Ströme ist verschieden: %2 hat %3, wo %4 %5 hat.</translation></message>
<message><source>%1: %2 W are drawn (%3) where it gives %4 W.</source><translation>%1: %2 W werden aufgenommen (%3), und es gibt %4 W.</translation></message>
<message><source>%1: %2 W are drawn (%3) where it gives %4 W; by day %5 W look as if it would do.</source><translation>%1: %2 W werden aufgenommen (%3), und es gibt %4 W; bei Tag sehen %5 W aus, als reichte es.</translation></message>
<message><source>cold night</source><translation>kalte Nacht</translation></message>
<message><source>%1: %2 h of standby on a cold night need %3 Ah, and it has no battery.</source><translation>%1: %2 h Überbrückung in kalter Nacht brauchen %3 Ah, und es hat keine Batterie.</translation></message>
<message><source>%1: %2 h of standby on a cold night need %3 Ah; its %4 Ah bridge %5 h.</source><translation>%1: %2 h Überbrückung in kalter Nacht brauchen %3 Ah; seine %4 Ah überbrücken %5 h.</translation></message>
<message><source>%1: at %2 m/s (%3 Pa) the wind puts %4 N on it and %5 N on its pole, %6 N m about the foot; poles and footings are for a structural engineer.</source><translation>%1: Bei %2 m/s (%3 Pa) drückt der Wind mit %4 N auf die Kamera und mit %5 N auf ihren Mast, %6 N m um den Fuß; Masten und Fundamente sind Sache des Tragwerksplaners.</translation></message>
<message><source>%1 tilts no further than straight down</source><translation>%1 neigt nicht weiter als senkrecht nach unten</translation></message>
<message><source>%1 tilts no further than straight up</source><translation>%1 neigt nicht weiter als senkrecht nach oben</translation></message>
<message><source>%1 is at its pan stop, %2 deg</source><translation>%1 ist am Anschlag des Schwenks, %2°</translation></message>
<message><source>%1 is at its pan stop</source><translation>%1 ist am Anschlag des Schwenks</translation></message>
<message><source>%1 is at its tilt stop, %2 deg</source><translation>%1 ist am Anschlag der Neigung, %2°</translation></message>
<message><source>%1 is at its tilt stop</source><translation>%1 ist am Anschlag der Neigung</translation></message>
<message><source>%1 is at its roll stop, %2 deg</source><translation>%1 ist am Anschlag des Rollens, %2°</translation></message>
<message><source>%1 has a fixed lens</source><translation>%1 hat ein festes Objektiv</translation></message>
<message><source>%1 has a fixed lens now</source><translation>%1 hat jetzt ein festes Objektiv</translation></message>
<message><source>%1 is at the end of its zoom, %2 deg across</source><translation>%1 ist am Ende seines Zooms, %2° Bildwinkel</translation></message>
<message><source>%1 is at the end of its zoom, %2 mm</source><translation>%1 ist am Ende seines Zooms, %2 mm</translation></message>
<message><source>%1 states no such zoom</source><translation>%1 nennt keinen solchen Zoom</translation></message>
<message><source>%1 cannot pass imager %2 on their ring</source><translation>%1 kommt am Sensor %2 auf ihrem Ring nicht vorbei</translation></message>
<message><source>imagers of %1 were kept %2 deg apart on their ring</source><translation>Sensoren von %1 blieben auf ihrem Ring %2° auseinander</translation></message>
<message><source>%1: %2 to %3 can be set</source><translation>%1: einstellbar ist %2 bis %3</translation></message>
<message><source>%1 has one aim, which stays</source><translation>%1 hat eine Ausrichtung, die bleibt</translation></message>
<message><source>%1 hangs no higher on %2</source><translation>%1 hängt an %2 nicht höher</translation></message>
<message><source>%1 hangs no lower on %2</source><translation>%1 hängt an %2 nicht tiefer</translation></message>
<message><source>%1 is held on %2</source><translation>%1 bleibt auf %2</translation></message>
<message><source>%1: no tilt brings that point there</source><translation>%1: keine Neigung bringt diesen Punkt dorthin</translation></message>
<message><source>%1: no tilt brings that direction there</source><translation>%1: keine Neigung bringt diese Richtung dorthin</translation></message>
<message><source>the point is at the lens</source><translation>der Punkt liegt am Objektiv</translation></message>
<message><source>the lens shows nothing there</source><translation>dort zeigt das Objektiv nichts</translation></message>
<message><source>%1 does not see that point</source><translation>%1 sieht diesen Punkt nicht</translation></message>
<message><source>%1 does not look %2 deg below the horizon</source><translation>%1 blickt nicht %2° unter den Horizont</translation></message>
<message><source>%1 deg are missing for %2 deg of overlap</source><translation>für %2° Überlappung fehlen %1°</translation></message>
<message><source>%1 stays: it is locked</source><translation>%1 bleibt: gesperrt</translation></message>
<message><source>%1 stays: it has several aims</source><translation>%1 bleibt: hat mehrere Ausrichtungen</translation></message>
<message><source>%1 does not hold its part of the wall</source><translation>%1 fasst seinen Teil der Wand nicht</translation></message>
<message><source>%1 finds nothing of the zone in its share</source><translation>%1 findet in seinem Anteil nichts von der Zone</translation></message>
<message><source>%1 does not hold its share of the zone at its widest</source><translation>%1 fasst seinen Anteil der Zone auch in Weitstellung nicht</translation></message>
<message><source>%1 gives %2 px/m at its farthest corner, %3 are asked for</source><translation>%1 gibt %2 px/m an seiner fernsten Ecke, verlangt sind %3</translation></message>
<message><source>stream %1 shrinks from %2 x %3 to %4 x %5</source><translation>Strom %1 schrumpft von %2 x %3 auf %4 x %5</translation></message>
<message><source>%1 goes: %2 has no such imager</source><translation>%1 entfällt: %2 hat keinen solchen Sensor</translation></message>
<message><source>the mount %1 of %2 is not made for %3</source><translation>die Halterung %1 von %2 ist nicht für %3 gemacht</translation></message>
<message><source>%1 cannot be a %2</source><translation>%1 kann kein %2 sein</translation></message>
<message><source>the sun's year</source><translation>das Jahr der Sonne</translation></message>
<message><source>blind zones</source><translation>tote Zonen</translation></message>
<message><source>never in or near the picture</source><translation>nie im Bild oder nahe daran</translation></message>
<message><source>never behind the faces</source><translation>nie hinter den Gesichtern</translation></message>
<message><source>%1 h hidden by what stands between</source><translation>%1 h verdeckt von dem, was dazwischensteht</translation></message>
<message><source>%1 h in the picture and %2 h within %3 degrees of it (%4; most on %5, %6 h)</source><translation>%1 h im Bild und %2 h höchstens %3 Grad daneben (%4; am meisten am %5, %6 h)</translation></message>
<message><source>%1 h in the picture and %2 h within %3 degrees of it (%4; most on %5, %6 h); %7 h hidden by what stands between</source><translation>%1 h im Bild und %2 h höchstens %3 Grad daneben (%4; am meisten am %5, %6 h); %7 h verdeckt von dem, was dazwischensteht</translation></message>
<message><source>%1 h behind the faces (%2; most on %3, %4 h)</source><translation>%1 h hinter den Gesichtern (%2; am meisten am %3, %4 h)</translation></message>
<message><source>%1 h behind the faces (%2; most on %3, %4 h); %5 h hidden by what stands between</source><translation>%1 h hinter den Gesichtern (%2; am meisten am %3, %4 h); %5 h verdeckt von dem, was dazwischensteht</translation></message>
<message><source>%1: the sun stands in its picture about %2 h a year, and %3 h within %4 degrees of it (%5; most on %6, %7 h); tilted %8 deg farther down it never has.</source><translation>%1: Die Sonne steht etwa %2 h im Jahr in seinem Bild und %3 h höchstens %4 Grad daneben (%5; am meisten am %6, %7 h); um %8° weiter nach unten geneigt nie.</translation></message>
<message><source>%1: the sun stands in its picture about %2 h a year, and %3 h within %4 degrees of it (%5; most on %6, %7 h); no tilt within its limits keeps it out, so turn or shade it.</source><translation>%1: Die Sonne steht etwa %2 h im Jahr in seinem Bild und %3 h höchstens %4 Grad daneben (%5; am meisten am %6, %7 h); keine Neigung in seinen Grenzen hält sie fern, also drehen oder beschatten.</translation></message>
<message><source>%1: for %2 the sun stands behind the faces, at most %3 deg high, %4 h a year (%5; most on %6, %7 h); look from the other side, or shade what lets it in.</source><translation>%1: Für %2 steht die Sonne hinter den Gesichtern, höchstens %3° hoch, %4 h im Jahr (%5; am meisten am %6, %7 h); von der anderen Seite blicken oder beschatten, was sie einlässt.</translation></message>
<message><source>%1: for %2 the sun stands behind the faces, at most %3 deg high, %4 h a year (%5; most on %6, %7 h); for %8 only %9 h.</source><translation>%1: Für %2 steht die Sonne hinter den Gesichtern, höchstens %3° hoch, %4 h im Jahr (%5; am meisten am %6, %7 h); für %8 nur %9 h.</translation></message>
<message><source>longest %1 to %2, between %3 and %4</source><translation>am längsten %1 bis %2, zwischen %3 und %4</translation></message>
<message><source>%1 to %2, between %3 and %4</source><translation>%1 bis %2, zwischen %3 und %4</translation></message>
</context>
</TS>
