<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="en" sourcelanguage="en">
<!-- One and many of what is counted; all else is as the source says it. -->
<context>
<name>window</name>
<message numerus="yes"><source>%n</source><translation><numerusform>%n</numerusform><numerusform>%n</numerusform></translation></message>
<message numerus="yes"><source>%n housings</source><translation><numerusform>%n housing</numerusform><numerusform>%n housings</numerusform></translation></message>
<message numerus="yes"><source>%1, %n imagers</source><translation><numerusform>%1, %n imager</numerusform><numerusform>%1, %n imagers</numerusform></translation></message>
<message numerus="yes"><source>%n values</source><translation><numerusform>%n value</numerusform><numerusform>%n values</numerusform></translation></message>
<message numerus="yes"><source>%n models. Select several to see them side by side.</source><translation><numerusform>%n model.</numerusform><numerusform>%n models. Select several to see them side by side.</numerusform></translation></message>
<message numerus="yes"><source>%n places at least are needed.</source><translation><numerusform>%n place at least is needed.</numerusform><numerusform>%n places at least are needed.</numerusform></translation></message>
<message numerus="yes"><source>Copied: %n things</source><translation><numerusform>Copied: %n thing</numerusform><numerusform>Copied: %n things</numerusform></translation></message>
<message numerus="yes"><source>and %n more imagers</source><translation><numerusform>and %n more imager</numerusform><numerusform>and %n more imagers</numerusform></translation></message>
<message numerus="yes"><source>%1 has %n problems. Nothing was opened; what was open before still is.</source><translation><numerusform>%1 has %n problem. Nothing was opened; what was open before still is.</numerusform><numerusform>%1 has %n problems. Nothing was opened; what was open before still is.</numerusform></translation></message>
<message numerus="yes"><source>%n models taken from %1; %2 were there already.</source><translation><numerusform>%n model taken from %1; %2 were there already.</numerusform><numerusform>%n models taken from %1; %2 were there already.</numerusform></translation></message>
<message numerus="yes"><source>%n things</source><translation><numerusform>%n thing</numerusform><numerusform>%n things</numerusform></translation></message>
<message numerus="yes"><source>Move %n things</source><translation><numerusform>Move %n thing</numerusform><numerusform>Move %n things</numerusform></translation></message>
<message numerus="yes"><source>%n rows fall short (open circle).</source><translation><numerusform>%n row falls short (open circle).</numerusform><numerusform>%n rows fall short (open circle).</numerusform></translation></message>
<message numerus="yes"><source>%n streams</source><translation><numerusform>%n stream</numerusform><numerusform>%n streams</numerusform></translation></message>
<message numerus="yes"><source>&amp;Everywhere it is used (%n housings)</source><translation><numerusform>&amp;Everywhere it is used (%n housing)</numerusform><numerusform>&amp;Everywhere it is used (%n housings)</numerusform></translation></message>
<message numerus="yes"><source>With %n parts something falls that no card bridges (open circle).</source><translation><numerusform>With %n part something falls that no card bridges (open circle).</numerusform><numerusform>With %n parts something falls that no card bridges (open circle).</numerusform></translation></message>
<message numerus="yes"><source> %n verdicts are not met as designed: no loss can cost them.</source><translation><numerusform> %n verdict is not met as designed: no loss can cost it.</numerusform><numerusform> %n verdicts are not met as designed: no loss can cost them.</numerusform></translation></message>
<message numerus="yes"><source>%n imagers are recorded nowhere meanwhile.</source><translation><numerusform>%n imager is recorded nowhere meanwhile.</numerusform><numerusform>%n imagers are recorded nowhere meanwhile.</numerusform></translation></message>
<message numerus="yes"><source>The sum of what its %n streams take over their days; 1 TB is 10^12 bytes.</source><translation><numerusform>What its %n stream takes over its days; 1 TB is 10^12 bytes.</numerusform><numerusform>The sum of what its %n streams take over their days; 1 TB is 10^12 bytes.</numerusform></translation></message>
<message numerus="yes"><source> %n of them have no length.</source><translation><numerusform> %n of them has no length.</numerusform><numerusform> %n of them have no length.</numerusform></translation></message>
<message numerus="yes"><source>The sum of the lines; %n have no price.</source><translation><numerusform>The sum of the lines; %n has no price.</numerusform><numerusform>The sum of the lines; %n have no price.</numerusform></translation></message>
<message numerus="yes"><source>%n streams, recorded for %1 days</source><translation><numerusform>%n stream, recorded for %1 days</numerusform><numerusform>%n streams, recorded for %1 days</numerusform></translation></message>
</context>
</TS>
