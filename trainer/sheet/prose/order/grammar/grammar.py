"""The patterns of what is said of the order, over texts with a letter for each word or phrase (`vocabulary.toml`).

They are tried in the order of `_PATTERNS` at each place of a sentence. What fits none stays out of the atoms: it is a
remark, or the steps of an extra.
"""

import re
from collections.abc import Callable, Sequence
from functools import lru_cache

from trainer.sheet.prose.lexis.lexeme import Names
from trainer.sheet.prose.lexis.lexemes import lexemes
from trainer.sheet.prose.order.grammar import (
    change_makers,
    halves,
    made_below,
    makers,
    next_wall,
    partial_extras,
    step_makers,
    stop_makers,
    title_makers,
    two_parts,
    wall_makers,
)
from trainer.sheet.prose.order.grammar.atoms import Atom, Letters, Sentence
from trainer.sheet.prose.order.grammar.forms import (
    ASIDE,
    BEFORE,
    CHANGED,
    CNT,
    CNT_SURE,
    FACED,
    LENGTH,
    LISTED,
    OF,
    SEC,
    W_FACING,
    W_LIST,
    W_MANY,
    W_ONE,
    W_ONE_MORE,
    W_ORDINAL,
    W_TIMES,
)
from trainer.sheet.prose.words import Token

_Make = Callable[[Letters, re.Match[str]], list[Atom] | None]
"""Makes the atoms of letters; None: the pattern does not fit them after all, and another may."""
_PATTERNS: list[tuple[re.Pattern[str], _Make]] = [
    (re.compile(pattern), make)
    for pattern, make in (
        # "no tags, no restarts", "Tags: none", "without a restart"
        (
            r"[NK](?:I|n)?[TGRXHM](?:(?:,?[&/]|,)N?[TGRXM](?![wWAo:n]|[IDU](?![IDUtJj?@]*(?:[.!,;)]|$))))*|"
            r"[TGX][:\-]?N(?![TGRXH])|R(?:[:\-]N(?![TGRXH])|N(?=[,.;:)&/|*]|$))",
            makers.negation,
        ),
        (r"N\?[TGRX]", makers.no_more),
        # "two eights instead of four"
        (r"(?<=[sc])Vn(?=[.,;)]|$)", makers.not_so_many),
        # "only the first half of the tag", "counts 1-4 of tag 2", "half a tag"
        (partial_extras.BEFORE, partial_extras.share_of_extra),
        # "the tag, but only the first half", "the tag (counts 1-4 only)", "the tag up to count 4"
        (partial_extras.BEHIND, partial_extras.share_of_extra),
        (r"H(?=[:(]?[IAE]*o?[wW]|A(?:cn|n-?c?)In-?c)", stop_makers.bare_hold),
        # "After wall 1 we wait.", how long being told after
        (r"(?<=wn)H$|(?<=o[wt])H$", stop_makers.bare_hold),
        # "do not let the fifth wall begin before the band does", "don't start wall 4 too early"
        (r"N\??(?:y[IUj]*(?:wn|ow|ot)|(?:wn|ow|ot)y)[^.;:]*", makers.negation),
        # "as wall 1"
        (r"0n", makers.negation),
        (r"NE(?![wWIo])", makers.negation),
        # "Do not go on to the heels."
        (r"D?NJ[IU>j]*m{1,3}(?=[.,;]|$)|D?NJ[IU>j]*(?:sn|on|os|q|cn)(?=[.,;]|$)|D?NJ(?=[.;]|$)", makers.negation),
        # "The song fades here, so this is your last wall", of a wall told of
        (r"(?<=[Q@],)L[wt](?=[.,;]|$)", makers.negation),
        # "hold for 4 counts at the end, before you begin wall 4"
        (r"E[,&]?(?=B(?:wn|ow))", makers.said_twice),
        # "then start wall 4", "go straight to wall 4", "straight to B"
        (r"(?:[>&]y|tU|tI|t\??j|[>&],?U|>|(?<=[nc])U)[IUj]*wn(?=$|[,.)(&YJz])(?!,?&w?n(?!-?c))", next_wall.to_wall),
        (r"[>&]ywn(?=A[^wWo])", next_wall.to_wall),
        # "... and begin wall 4 at 12:00", "touch R beside L (4), and wall 4 begins at 12:00"
        (r"[>&]y(?:wn|ow)(?=I?f[.)]?$)", next_wall.to_wall),
        (r"[>&]+(?:wn|ow)y(?=I?f[.)]?$)", next_wall.starts_from_there),
        # "On the fifth count you begin wall 2."
        (r"I(?:oc|cn)y[IUj]*(?:wn|ow)(?=I?\?{0,3}[.,!]?$)", next_wall.to_wall),
        # "walls 2 and 6 have at the end 4 counts more"
        (r"E(?P<len0>n)-?c[S?]", makers.more_at_the_end),
        (r"[>&]y[IUj]*ow(?=$|[,.)(&YJz])", next_wall.to_wall),
        # "..., clap, and then start the sixth."
        (r"[>&]y[IUj]*o(?=[.)]?$)", next_wall.to_wall),
        # "Begin wall 4 at once.", "Start wall 7 at 3:00", a sentence of its own
        (r"(?<![^.])y[IUj]*(?:wn|ow)(?=(?:I?\?{0,3}>?|[IY]*f)[.,!]?$)", next_wall.to_wall),
        # "... is left after 12 and wall 3 starts there"
        (r"[>&,]+(?:wn|ow)y(?=@?(?:[.,;]|$))@?", next_wall.next_wall_starts),
        (r"R(?P<wall>\((?:wn|ow)\))(?:In(?!-?[ct\-]))?", next_wall.restarts_as),
        (r">(?:wn|ow)y(?:I?f)?(?=[.,;:]|$)", next_wall.only_comes_then),
        # "You look to 3, here begins wall 4."
        (r"[,&>]*@y(?:wn|ow)(?=[.,;]|$)", makers.negation),
        # "..., and then you dance wall 5 straight on"
        (r"[>&,]*>D[IUj]*(?:wn|ow|ot)(?:\?I?|J)?(?=[.,;)]|$)", next_wall.dances_next),
        (r"RI(?:wn|ow)(?=[.,;)&>]|$)", next_wall.count_one_of),
        # "Begin again with the last A of the list."
        (r"RI(?:Lp|op)(?=I\?|[.,;)&>]|$)", next_wall.on_with_part),
        (r"(?:(?<=f)|(?<=[mYI]n)|(?<=\?))(?P<for>I)(?:wn|ow)(?=[.)]?$)", next_wall.ready_for),
        # "... and wall five begins from there", "and the sixth begins on the very next beat"
        (r"[>&,]+[I@]*(?:wn|ow)y(?:I|@)?(?=[.,;)]|$)", next_wall.to_wall),
        (r"[>&,]+oy(?:I|@|I[?o]*c)?(?=[.,;)]|$)", next_wall.to_wall),
        # "... and the seventh starts where the jazz box would have been"
        (r"[>&,]+\??(?:wn|ow|o)y\?[^.;]*", next_wall.starts_where),
        # "and commences the fourth repetition without delay", "one passes directly to the sixth repetition"
        (
            r"[>&,]*(?:y|t?\??j|t\?{0,2}U)[IUj]*(?:wn|ow|ot)(?:@|I|[IN]\?{1,2}|\?{1,3})?(?=[.,;)]|$)",
            next_wall.on_to_wall,
        ),
        (r"(?:wn|ow|ot)>y(?=[.;)]?$)", next_wall.on_to_wall),
        # "..., then comes round 7", "and after that wall 7 follows"
        (r"[>&,]+[A?]{0,2}(?:wn|ow|ot)\?(?=[.,;)]|$)", next_wall.follows),
        (r"[>&,]+[A?]{0,2}\?(?:wn|ow|ot)(?=[.,;)]|$)", next_wall.follows),
        # "When the drum comes back it is wall 7."
        (r"z[?mH]{1,6}(?:wn|ow)(?=[.;]?$)", next_wall.follows),
        # "then go on with wall seven:", as it would without being told
        (r"[>&,]*J[IUj]*(?:wn|ow|ot)(?=$|[,.)(&Y:])", next_wall.goes_on_with_wall),
        # "six walls in all", "you dance seven full walls", "eight times altogether"
        (r"[D>]?(?P<total>n)(?:a?[wW]|-?t)[,(]?0", wall_makers.total),
        (r"D(?P<total>n)aW(?=$|[,.;:)])", wall_makers.total),
        # "The sixth brings you to 12:00", "On the eighth do the first 8"
        (r"(?P<pre>[AEBI>]*)(?P<core>o)(?=[D:Y]|,D|\?{1,2}[UIY]*f|[QX](?![oa]))(?P<post>)", wall_makers.wall_by_place),
        # "In the fourth, once you have done the vines, start from the top"
        (r"(?<![^.])(?P<pre>I)(?P<core>o)(?=(?:[^pcswWtnh\-][^.]*)?R)(?P<post>)", wall_makers.wall_by_place),
        # "So does the fifth."
        (r"(?<![^.])[DI]?(?P<pre>)(?P<core>o(?:(?:,&?|&)o)*)(?=[.]?$)(?P<post>)", wall_makers.so_does),
        # "After the fourth there is a tag:", "a tag before the fifth:"
        (r"(?P<pre>[AEB])(?P<core>o)(?=,?[TGH>]|[:,][mHn])(?P<post>)", wall_makers.wall_by_place),
        (r"(?P<pre>Z)(?P<core>o&o)(?=,?[TGH>]|[:,][mHn])(?P<post>)", wall_makers.between_places),
        # "then wall 5 from the top"
        (r"(?<=[nqsxc])y[IUj]*(?:wn|ow|ot)(?=[.)]?$)", next_wall.to_wall),
        (r"[>&,]*y?[IUj]*(?:wn|ow|ot)R(?=[.)]?$)", next_wall.to_wall_afresh),
        (r"(?:[>&]?t?[Uj]|[>&]t|>|[>&,]*J[IU>]*[Uj])p(?!n?t|\()", makers.next_part),
        (r"(?P<pre>[AEIDj>]*)v[wW](?P<upto>UI?(?:[wW]n|ow))", wall_makers.up_to_wall),
        # "every wall is a whole one but the fifth"
        (
            r"I?(?:a?[vWz][wt]?U?|aw?)(?:D?anc?|D?a|n(?:-?c)?)?,?[>K](?P<pre>)(?P<core>o(?:(?:,&?|&)o)*w?|wn(?:(?:,&?|&)wn)*|Wn(?:(?:,&?|&)n)*)(?=[.,:;]|$)(?P<post>)",
            wall_makers.all_but,
        ),
        (r"(?P<pre>[AEBI]*)(?P<first>on)[Wt]", wall_makers.first_walls),
        (r"(?<=[,;&>])u?(?P<pre>)(?P<core>wn|ow)N(?=[:,;.]|$)(?P<post>)", wall_makers.not_so),
        # "after each of them there are four extra counts"
        (r"9", wall_makers.after_them),
        # "When the wall is over they stomp right"
        (r"zwE(?=,)", wall_makers.after_them),
        # "after that there are two more walls, 6 and 7"
        (r"[A>&]*n\??W[,:(](?P<pre>)(?P<core>n(?:(?:,&?|&)n)+)(?!-?c)(?P<post>)", wall_makers.walls),
        # "at the end of wall 2, and again in wall 5, after figure 2"
        (r"(?P<pre>[I>]*[AE])(?P<core>wn|ow)(?=,?&I(?:wn|ow),?[AZ](?:s|o-?s|c?n|n-?c))(?P<post>)", wall_makers.walls),
        # "between walls 2 and 3", "at the end of the 2nd and 4th wall", "on W3 & W6", "the third time through"
        (r"(?P<pre>[AEI>Dj]*)[wW][:#]?n\([AU]?c?n-?c?\)(?:(?:,&?|&)n\([AU]?c?n-?c?\))+", wall_makers.walls_with_counts),
        (rf"(?P<pre>[AEI>Dj]*)[wW]:?n{FACED}(?:(?:,&?|&)w?n{FACED})+", wall_makers.walls_with_facings),
        # "the last wall (the 7th)", "the seventh and last wall", "the last wall is wall 7", "wall 7 is the last"
        (
            r"(?P<pre>[AEI>Dj]*)(?P<core>L[wt]t?[,:]?\(?wn\)?|Lw:?n(?=[,.;:(]|$)|L[wt]t?,?\(?(?:o|n(?=\)))[wt]?\)?|o&L[wt]|otU?L(?=[.,;]|$)|(?:wn|ow),?[LX](?=[,:.(&-]|$)|wn,?\([LX]\)|wn[,:]?L[wt](?=[,:.(&-]|$))(?P<post>)",
            wall_makers.last_wall,
        ),
        (r"(?<=[:\-])L[wt]?(?=[.,;]|$)", stop_makers.the_last),
        (r"(?P<pre>Z)(?P<core>W?wn&w?n|Wn&n|o&o[wW]|ow&o)(?P<post>)", wall_makers.walls),
        (
            r"(?:(?<=[RTG])|(?<=[,:;]X)|(?<=^X))(?P<pre>I)(?P<core>n(?:(?:(?:,&?|&)n)+(?!-?[cst])|(?=[A,:(]|$)))(?P<post>)",
            wall_makers.bare_walls,
        ),
        # "On 3 and 6 dance only 16", but not "on 3 and 4 do that again"; "two walls are cut to 16: 3 and 7"
        (r"(?<![^.])(?P<pre>I)(?P<core>n(?:(?:,&?|&)n)+)(?=D[^?&,.:;])(?P<post>)", wall_makers.bare_walls),
        # "SHORT WALL - the 4th."
        (r"(?<=Sw)[:,\-]?(?P<pre>)(?P<core>o(?:(?:,&?|&)o)*)(?=[,.:(]|$)(?P<post>)", wall_makers.walls),
        # "The odd one out is the sixth wall", "the only short wall is the sixth, ..."
        (r"(?<=w)[:,\-]?(?P<pre>)(?P<core>o)(?=[,.:(]|$)(?P<post>)", wall_makers.is_the_wall),
        # "In the second wall ... The same happens in the fifth."
        (r"(?P<pre>[I]+)(?P<core>o)(?=[.]?$)(?P<post>)", wall_makers.same_there),
        (r"(?<=[wW][,:])(?P<pre>)(?P<core>o(?:(?:,&?|&)o)+)(?=[:,(.]|$)(?P<post>)", wall_makers.walls),
        (r"(?<=:)(?P<pre>)(?P<core>n(?:(?:,&?|&)n)+)(?=\.?$)(?P<post>)", wall_makers.short_walls),
        # "Tag (end of 2, 4 and 6)"
        (r"(?<=[TG])\(?(?P<pre>E)(?P<core>n(?:(?:,&?|&)n)*(?!-?[cst]))(?P<post>)", wall_makers.walls),
        (r"(?<=[TG])\(?(?P<pre>A)(?P<core>n(?:(?:,&?|&)n)+(?!-?[cst]))(?P<post>)", wall_makers.walls),
        (
            rf"(?P<pre>(?:zX|[AEBOI>Dj])*)(?P<core>{W_LIST}|{W_ONE_MORE}|{W_ONE}|{W_MANY}|{W_ORDINAL})(?P<post>[EQ](?=[:,\-(TGH>&]|$)|E(?=[fIYmz0?])|>(?=n))?",
            wall_makers.walls,
        ),
        (r"(?<=[&,])(?P<pre>I)(?P<core>o)(?=[AE,:D(UB])(?P<post>)", wall_makers.one_more),
        # "the second time you start to 3:00 and the third time to 6:00", and no more in the sentence
        (r"(?<![^.?>,D])ot[yYIU]{1,4}f(?:(?:,[&>]?|[&>])ot?[yYIU]{0,4}f)+(?=$|[.;]$)", wall_makers.times_with_facings),
        (rf"(?P<pre>[AEBOI>Dj]*)(?P<core>{W_FACING}|{W_TIMES})w?(?P<post>)", wall_makers.walls),
        # "in round three", "round 3:"
        (r"(?P<pre>(?:^|(?<=[,.(:]))|[AEBI]+)(?P<core>tn)(?=[,:.(AEU]|$)(?P<post>)", wall_makers.walls),
        (r"(?P<pre>I+)(?P<core>tn)(?!-?[cst&])(?P<post>)", wall_makers.numbered_round),
        # "the second time you finish at the front", "every time you face the back"
        (
            r"(?P<pre>)(?P<core>(?:[ov]t?|z)[QXE]+[YIU]*f|[vz]t?\?{1,2}U[YI]*f(?=[,:]*[TGH>]))(?P<post>)",
            wall_makers.walls,
        ),
        (r"(?P<pre>)(?P<core>ot\?[YIU]*f)(?=[,:.;()-]|$)(?P<post>)", wall_makers.walls),
        (r"(?P<pre>)(?P<core>z?[yYD]+[YIU]*f[,(]?Iot)(?P<post>)", wall_makers.walls),
        (r"(?P<pre>[AEBOI>DjUz?]*)(?P<core>f[,(]?Iot)(?P<post>)", wall_makers.walls),
        (r"(?P<pre>)(?P<core>(?:vt?|z)[yYIUD]+f)(?P<post>)", wall_makers.walls),
        # "the wall that starts at 3:00", "at the end of the right-hand wall"
        (r"(?P<pre>[AEBOI>Dj]*)(?P<core>[wW]y[YIU]*f(?:[,(]?Iot)?)(?P<post>)", wall_makers.walls),
        (r"(?P<pre>[AEBOI>Dj]*)(?P<core>vf)(?P<post>)", wall_makers.walls),
        (r"(?P<pre>(?:^|(?<=[,:.;(]))?[AEBOI>DjU]*)(?P<core>f)(?P<post>)", wall_makers.wall_by_facing),
        # "when you have danced it twice"
        (r"(?P<pre>[Az>?]*A|z)D*(?:a\??)?(?P<core>k|nt|nW)(?:U|@)?(?P<post>)", wall_makers.times_danced),
        (r"(?P<pre>[AEBOI>Dj]*)(?P<core>(?:v|a|Io|o)o?[wW]|vn?o?w|L[wWt])", wall_makers.every),
        # "SHORT A: ...", "A* is ..."
        (r"(?P<pre>[AEBIZ>j]*)(?P<core>Sp|p\*|p-(?=[:=]))(?=[^pTGS*]|$)", wall_makers.short_part),
        # "* in this A we dance ...": a note to "A*"
        (r"(?<![^.])(?P<pre>)(?P<core>\*[:,\-]?I?p)(?![pTGS*])", wall_makers.noted_part),
        (r"(?P<pre>[AEBI>j]*)(?P<core>o(?:(?:,&?|&)o)*p|p,?\(?ot\)?|p[,(]?Iot|otIp|p#n)", wall_makers.passes),
        (r"(?P<pre>[AEBI>j]*)(?P<core>pn)(?=[:,(IADKM]|$)", wall_makers.numbered_pass),
        (r"(?P<pre>[AEBI>j]*)(?P<core>[vL]p)", wall_makers.every),
        (r"(?P<pre>[AEB])(?P<core>p)", wall_makers.passes),
        # "4 count tag", "Tag 2 (8 counts)", "the first tag", "hold for 2 counts", "one tag"
        # "third and fifth rotations finish here: restart"
        (r"(?<=[tw])X(?=@[:,;.&>]{1,2}R)", stop_makers.stop),
        (r"(?<![wWscAIU#])n-?S?(?P<act>[TGRX])(?:I(?P<len0>n)(?:-?c)?(?=[,.;)]|$))?(?![#n])", makers.declared),
        (r"(?P<act>[TG])I(?P<len0>n)(?=[@,.:;)]|$)", makers.extra),
        # "come two counts of tag", "a tag of two counts"
        (r"(?<![AEBU])(?P<len0>n)-?cI(?P<act>[TG])(?![n#])", makers.extra),
        (r"(?P<act>[TG])I(?P<len0>n)-?c(?![n#IjU])", makers.extra),
        (
            rf"(?:(?P<len0>n)-?c-?)?S?(?:(?P<ord>o)-?)?(?P<act>[TGX])(?:#?(?P<num>n)(?!-?[ctn]))?{LENGTH}(?:D?k)?",
            makers.extra,
        ),
        (r"(?P<len0>n)-?c-?(?:[?m]-?)?(?P<act>[TGX])", makers.extra),
        # "It's only 4 counts: sway right ...", of the extra just told
        (r"(?<![^.])u(?P<cnt>n-?c)(?=:[mH])", makers.loose),
        # "put in four beats here: stomp right ...", an extra without a name
        (r">(?P<len0>n)-?c@?(?=[:(][mHn?]|:$)", makers.unnamed),
        # "add 2 counts, then restart", "we add four counts.", and below: "The 2 counts: stomp R, stomp L"
        (r"(?:[>&]|(?<=w[no]>)|(?<=[wt]>))(?P<len0>n)-?c(?=,?[>&]*R|[.;,]?$)", made_below.told_below),
        (r"(?<![^.])(?P<len0>n)-?c[?]?(?=[:=][mHn])", made_below.those_counts),
        (r"\?(?P<len0>n)-?c(?=[:(][mHn])", makers.unnamed_put),
        # "and then three more counts: ...", "then one last bar: ..."
        (r">(?P<len0>n)(?:[?L]-?c?|-?c[?L])(?=[:(][mHn?]|:$)", makers.unnamed_more),
        # "four counts are slipped in: ...", "is followed by four counts that belong to nothing: ..."
        (r"(?P<len0>n)-?c[?@]{0,2}>(?=[:(][mHn]|:$)", makers.unnamed_passive),
        (r">(?P<len0>n)-?c[?I]{1,4}(?=:[mHn])", makers.unnamed_passive),
        # "after section 4 add 4: step left ..."
        (r"(?<=[snxoq]|@)>(?P<len0>n)(?=:[mHn])", makers.unnamed),
        # "add four slow sways: sway right (1) ..."
        (r">n?[m?]{1,3}(?=:[mHn?])", makers.unnamed_steps),
        # "here add four counts, facing 12, then go on"
        (r"(?:(?<=s[nx])|(?<=s[nx][:,]))>(?P<len0>n)(?:-?c)?(?=[(,.;]|$)", makers.unnamed),
        (r"(?:(?<=@)>(?P<len0>n)-?c|>(?P<len0b>n)-?c(?=@))(?=@?(?:[(,.;fY]|$))", makers.unnamed),
        (r"QI(?P<cnt>n-?c?)(?:I(?P<sec>s[nx]|o-?s|on|q))?", stop_makers.stop_at),
        # "a bar in which nobody moves", "three counts, without moving"
        (r"(?P<len0>n)(?:-?cI\??H(?!I?\??n)|I?H(?=[.;]?$))", stop_makers.held),
        (r"(?P<len0>n)-?c-?H|H(?:I\?(?=In-?c))?I?(?:[?a](?=n-?c)|a(?=n[.,;]?$))?(?P<len1>n)-?[ct]?", stop_makers.hold),
        (r"\?{1,3}@?I?(?:nI)?(?P<len1>n)(?:-?c)?", stop_makers.stays),
        (r"A(?=,?>?[JD>])", two_parts.after_that),
        (r"RI(?P<sec>sn|cn|os|on|q)", makers.from_section),
        (r"(?:o-?)?R(?:#?(?P<num>n)(?=[:,.()&\-]|[wWIAy]|$))?", makers.restart),
        # "sections 1 to 3, then the ending instead of section 4"
        (rf"(?<=[XTG])VI?{SEC}(?=[.,;)]|$)", change_makers.in_its_place),
        # "replace counts 15-16 with", "instead of the last two counts", "counts 7-8 of section 2 become"
        (rf"(?:M|V|>M)I?{CHANGED}(?:[IU]|b)?:?", change_makers.change),
        # "the 7 and 8 of the last eight", where steps are changed
        (r"[IV]?I?(?P<pair>c?n[&,]n)I(?P<sec>s[nx]|o-?s|on|q|Ls)", change_makers.counts_of_section),
        (r"VI?(?P<listed>c?n,n)(?=[m:,])", change_makers.change_of_two),
        # "instead of 7 8 take 7 step right, 8 drag", "for 7 8 dance: ..."
        (r"[VM]I?(?P<listed>c?nn)(?=[m:,DIb>?])", change_makers.change_of_two),
        (rf"VI?(?P<cnt>n)(?!-?[TGX])(?:I?{SEC})?:?", change_makers.change),
        (r"\((?:(?P<pair>cn&n)|(?P<cnt>cn[-U]n|cn|n-n))\)b", change_makers.change),
        (
            rf"[>I]?(?:(?P<pair>c?n&?n)|(?P<cnt>cn[-U]n|cn|n[-U]n)){OF}{ASIDE}I?(?:[:,]?b|M(?!I?c?n))[IU]?:?",
            change_makers.change,
        ),
        (rf"(?P<lastn>Ln?-?c){OF}{ASIDE}I?(?:(?:b|M(?!I?c?n))[IU]?:?|(?=,?I(?:wn|ow),?M))", change_makers.change),
        # "change to figure 2 in wall 4, counts 7-8"
        (
            r"M[UI]{0,2}(?P<sec>s[nx]|o-?s|on|q)[,:(]?I?(?P<core>wn|ow)[,:(]{0,2}(?P<cnt>cn[-U]n|cn|n-n)",
            change_makers.change_of_a_wall,
        ),
        (rf"M[m?]{{1,5}}I?{CHANGED}(?:[IU]|b)?:?", change_makers.change),
        (r"(?:V|b)[m?I]*?I(?P<cnt>cn[-U]n|cn)", change_makers.change),
        (r"H(?P<cnt>cn[-U]n|cn)", change_makers.held),
        # "do this for 29-32: ...", "on counts 29-32 dance: ..."
        (rf"[D>]+\??I(?P<cnt>cn[-U]n|cn|n-n){OF}(?=:)", change_makers.change),
        (rf">?I(?P<cnt>cn[-U]n|cn|n-n){OF}(?:[,>]*D(?=[:mb])|(?=Iwn[u,>]*D[:m]))", change_makers.change),
        (rf">?I(?P<cnt>cn[-U]n|cn){OF},?(?=m{{1,5}}(?:V|b))", change_makers.change),
        # "counts 5-8 of section 4 are different: ..."
        (rf">?I?(?P<cnt>cn[-U]n|n-n){OF}0:(?=[mH])", change_makers.change),
        (rf">?I?(?:(?P<pair>cn[&,]n)|(?P<cnt>cn[-U]n|cn)|(?P<lastn>Ln-?c)){OF}:(?=[mH])", change_makers.weak_change),
        # "section 6, counts 7-8 become touch, hold"
        (r"I?(?P<sec>s[nx]|o-?s|on|q|Ls)[,I(]*(?:(?P<pair>cn&n)|(?P<cnt>cn[-U]n|cn|n-n))\)?:?b", change_makers.change),
        (
            r"MI?(?P<sec>s[nx]|o-?s|on|q|Ls)[,I(]*(?:(?P<pair>cn&n)|(?P<cnt>cn[-U]n|cn|n-n))\)?:?[IU]",
            change_makers.change,
        ),
        # "in section 2, counts 7-8: stomp, hold"
        (
            r"I?(?P<sec>s[nx]|o-?s|on|q|Ls)[,I(]*(?P<cnt>cn[-U]n|n-n)\)?(?::(?=[mH])|[,>]*D(?=[:m]))",
            change_makers.weak_change,
        ),
        # "in section 4, counts 5-8 are step right, ..."
        (r"I?(?P<sec>s[nx]|o-?s|on|q|Ls)[,I(:]*(?P<cnt>cn[-U]n|n-n)\)?(?=m)", change_makers.are_changed),
        (rf">?I(?:(?P<pair>c?n&n)|(?P<cnt>c?n[-U]n)){OF},?(?=>?m)", change_makers.counts_on),
        (
            rf"(?P<pre>I?)(?:(?P<pair>cn&n)|(?P<cnt>cn[-U]n|cn)){OF},?(?=m)",
            change_makers.is_changed,
        ),
        (r"(?<=0:)(?P<cnt>n-n)(?=m)", change_makers.of_a_wall),
        # "then the change in place of the jazz box": what it replaces is not danced
        (r"MV[m?I]+(?=[.,;)]|$)", change_makers.change),
        (r"M", change_makers.change),
        # "dance Figure 8 like this: ...", "replace Figure 8 with: ..."
        (rf"D{SEC}b:?", change_makers.section_changed),
        # "change in Figure 3: for 4-5-6 do ..."
        (r"(?<=[:,])I(?P<cnt>cn-n|n-n)(?=N?D)", change_makers.change),
        # "Figure 8, counts 4-5-6, on wall 5 only: step right ..."
        (r"I?(?P<sec>s[nx]|o-?s|q)[,:]?(?P<cnt>cn[-U]n|cn|n-n)(?=,?Iwnu?,?:[mH]|M[,:&])", change_makers.change),
        # "carry on with count 17", "go on with section 3", "continue"
        (rf"J[IU>jA]*(?P<pre>){SEC}", makers.onward),
        # "Pick it up again at the heels of section 3"
        (rf"J[IU>jA]*m{{1,3}}I(?P<pre>){SEC}", makers.onward),
        (rf"J[IU>jA]*(?P<pre>){CNT_SURE}(?:I?{SEC})?", makers.onward),
        (r"J", makers.onward),
        # "Then section 3 to the end"
        (rf">[,D]?(?P<pre>){SEC}(?P<end>X)(?=J|[.,;]|$)", makers.onward_to_the_end),
        # "between sections 2 and 3", "leave out the last 8 counts", "skip section four"
        (r"Z(?:[sc][nx][&\-U][sc]?[nx]|o&o-?s|o-?s&o-?s|on&on|o&on|q&q|n&n(?=[,:.;)(fY]|$))", makers.between),
        (r"[>&]*XI(?=p)", two_parts.closes_with_part),
        (rf"(?:A[?D]?|>[?])(?P<pre>){SEC}(?=J|[.,;&]|$)", two_parts.comes_after_it),
        (rf">(?P<pre>){SEC}\?(?=[.,;]|$)", two_parts.comes_after_it),
        (r"Zn?[s?](?=[,.:;()>&]|[Iwft]|$)", two_parts.between_two),
        (rf"(?P<cnt>cn[-U]n)K|L(?P<rest>n)K|{SEC}K", change_makers.skip),
        (r"[KN]L(?P<many>n)-?s", change_makers.skip_sections),
        (r"D?(?P<rest>n)-?cS(?!p)|(?:mS|S)I(?P<by>n)-?c", change_makers.short_by),
        # "cut to 16"
        (r"K(?P<pre>U)(?P<cnt>n-?c|cn|n)(?=[,:;.)&>]|$)", change_makers.cut_to),
        # "there is no section 3 and no section 4"
        (r"[KN](?P<sec>s[nx](?:(?:,?[&/]|,)[KN]s[nx])+)", change_makers.skip),
        (rf"[KN]L?{SEC}|L(?P<cnt>n-?c)K", change_makers.skip),
        (rf"[KN][LI]*{CNT_SURE}(?:I(?:[a?]|w(?!n)))?|[KN]L(?P<rest>n)", change_makers.skip),
        # "has the opening eight and the middle eight only"
        (rf"[U>I]*[Du][DuU>I]*(?:(?:on|q)(?:,&?|&))+(?P<sec>on|q)u?{LISTED}", makers.sections_listed),
        (rf"(?:(?:on|q)(?:,&?|&))+(?P<sec>on|q)u{LISTED}", makers.sections_listed),
        # "as far as the pivot on 6", "after the touch on count 8"
        (
            r"(?:A|(?<![mH?hqn])D?u?U)[mH?h]{1,4}Ic?(?P<cnt>n)(?:I(?P<sec>s[nx]|o-?s|on|q)|(?=[,.)(;:&>RTGXY]|$)|(?<=cn)(?=m))",
            title_makers.titled_count,
        ),
        # "after the quarter turn on 4a of section 2", where another section's heading names a quarter turn
        (
            r"(?:A|(?<![mH?hqn])D?u?U)[mH?h]{0,3}q[mH?h]{0,3}I(?P<cnt>c?n)I(?P<sec>s[nx]|o-?s|on)",
            title_makers.titled_count,
        ),
        # "up to the first pivot (count 6 of section 3)", "as far as the touch at the end of section 2"
        (rf"(?P<pre>A|(?<![mH?h])D?U)o?[mH?h]{{1,4}}\((?P<cnt>cn)[Ij]{SEC}\)", makers.place),
        (rf"(?:A|(?<![mH?h])D?U)o?[mH?h]{{1,4}},?(?P<pre>[EQ]){SEC}", makers.place),
        # "after the sailor (5&6)", "as far as the pivot in section 2 (counts 5-6)"
        (rf"(?:A|(?<![mH?h])D?U)[mH?h]{{1,4}}(?:I{SEC})?\((?P<cnt>c?n[-&]n)\)", title_makers.titled_with_counts),
        # "the kick on 4 of the second eight is the end"
        (r"[mh]{1,3}Ic?(?P<cnt>n)(?:I(?P<sec>s[nx]|o-?s|on|q))?(?=[XQ][,.;)]?$)", title_makers.titled_count),
        # "after the heels of the third eight"
        (
            r"(?:[AEB]|(?<![mH?hqn])D?u?U)o?[mH?h](?:&?[mH?h]){0,4}[Ij](?P<sec>s[nx]|o-?s|on|q)",
            title_makers.titled_in,
        ),
        (r"(?:A|D?U)[mhH?&IoU][^(.;,]{0,7}(?=\((?:n-?c|cn)\))", title_makers.titled),
        # "as far as the drag and hold of figure 3", where the figure is called by its drag
        (r"(?:[AEB]|(?<![mH?hqn])D?u?U)q&[mH?h]{1,3}[Ij](?P<sec>s[nx]|o-?s|on|q)", title_makers.titled_in),
        # "after the kick section"
        (r"(?:[AEB]|D?u?U)[mh]{1,4}s(?=[,:)(.;>&-]|[RTGwWI]|$)", title_makers.headed),
        # "when the cross rocks are done (36 counts)", "once the weave is over"
        (r"z(?P<steps>[mh]{1,4})I(?P<core>wn|ow)[EDQ](?=[,:.]|$)", title_makers.titled_of_a_wall),
        (r"(?:A[mh]{1,4}[DQE]|z[mh]{1,4}[DQEam])(?=[,:)(.>&RJ]|$)", title_makers.titled_done),
        (r"D?[AEBU]n[m?]{1,3}(?=[,:)(.RTGwWIj>&]|$)", title_makers.titled_number),
        (r"QI[m?]{1,4}(?=[,:)(.>]|&R|$)", title_makers.titled),
        # "you have just done the four heel counts of the third eight", "do your two claps", "after the kick hold 2"
        # "do the four counts of heels in section 3 (count 20)"
        (rf"{BEFORE}n-?cI[mh]{{1,3}}[Ij]{SEC}\((?P<cnt>cn)(?:I[a?D]*)?\)", makers.counted_there),
        (rf"{BEFORE}(?P<cnt>n-?c)I[mh]{{1,3}}[Ij]{SEC}(?!\()", makers.place),
        (rf"{BEFORE}(?P<cnt>nm{{1,2}}c)[Ij]{SEC}", makers.place),
        (r"[>&u]*D(?P<len0>n)(?=(?P<steps>m{1,3}))", step_makers.many_steps),
        (r"[>&u]*Dnm+(?=$|[.,&)])", step_makers.counted_steps),
        (r"Ao?m{1,4}(?=\??HI?n)", title_makers.titled),
        # "having stomped R, L, hold two counts"
        (r"Am{1,4}(?:,&?m{1,2}){1,3}(?=,[&>]?H)", title_makers.titled_last),
        (r"Aom{1,3}(?=[,:)(.;]|$)", title_makers.titled),
        # "half way through the third eight", "to the middle of section 4, after count 28"
        (
            rf"{BEFORE}(?:(?:o[,&]+)*(?:s[nx]|q|o-?s|on|n-?c)(?:[,&U-]*(?:s?[nx]|q|o-?s|on))*[,&>D]+)?"
            rf"(?P<half>o?h)[Ij]*{SEC}(?:[,(-]*[AEUI]+(?P<cnt>cn|n-?c))?u?",
            halves.half_of_section,
        ),
        (rf"{BEFORE}(?P<many>n)(?:&\??h|m)-?su?", halves.sections_and_a_half),
        # "section 1, then count 1 of section 2"
        (
            rf"{BEFORE}(?:aI?)?(?P<done>s[nx](?:(?:,&?|[&U/-])s?[nx])*|o-?s|on),?[&>+D]{{1,3}}u?"
            r"(?P<cnt>cn[-U]n|cn|on-?c|oc|n-?c)[Ij](?P<sec>s[nx]|o-?s|on)u?(?=[,.;:)>&R(]|$)",
            halves.section_and_on,
        ),
        # "four figures and the first four beats of the fifth", "three eights and half of the next"
        (
            rf"{BEFORE}o?(?P<many>n)-?s(?P<lead>[,&>Du?]{{1,4}})(?P<more>on-?c|n[?]?-?c|cn[-U]n|o?h)"
            r"(?:[Ij](?P<then>o(?:-?s)?|s[nx]|\?s?))?u?(?=[,.;:)>&R(]|$)",
            halves.sections_and_more,
        ),
        (
            rf"{BEFORE}o?(?P<many>n)-?s(?P<lead>[,&>Du?]{{1,4}})(?P<then>o(?:-?s)?|s[nx]|\?s?),?U(?P<more>cn|n)(?=[,.;:)>&R(]|$)",
            halves.sections_and_more,
        ),
        # "sections 1 and 2, then section 3 up to 4&", "s1 s2, s3 (only to 4&a)"
        (
            rf"{BEFORE}(?:s?[nx][,>&-]*)*(?P<sec>s[nx])[,(]*u?U(?P<cnt>n)(?!-?[TGXH?mc])\)?u?",
            makers.count_reached,
        ),
        # "count 8 of section 2", "section 2, count 8", "after the second eight", "up to count 32", "first 16"
        (rf"{BEFORE}{CNT}[Ij]{SEC}u?", makers.place),
        (rf"{BEFORE}{SEC}[,:]I(?P<cnt>n)(?=[,:])", makers.place),
        (rf"{BEFORE}{SEC},?(?:[AU]*{CNT_SURE})(?!-?[TGXH?m])u?", makers.place),
        # "after Figure 5 count 3 the music jumps"
        (rf"{BEFORE}{SEC},?(?P<cnt>cn)(?=\?)", makers.place),
        (rf"{BEFORE}(?P<sec>q),?U(?P<cnt>n)(?!-?[TGXH?mc])u?", makers.place),
        (rf"{BEFORE}{SEC}u?", makers.place),
        # "begins at 6", "facing 12", "(you face the back)"
        (r"(?:y[IYU:]*|[IU]?Y[IU,:]*|[IU])f", makers.face),
        (r"f", makers.face),
        # "8a of section 1, restart to 6"
        (r"(?:(?<=R)|(?<=R,)|(?<=[sno]n,))Un(?=[.,;)]|$)", makers.faced_after),
        (r"(?:y[IYU]+|Y[I,:]?)n(?!-?[ct\-])", makers.face),
        (r"y[IU]*cn|(?<=>)[tm]{0,2}Ucn(?=[,.;)&>]|$)", makers.from_one),
        (r"y", makers.begins),
        (rf"(?P<pre>[AEUBDuO>I]*[AEUBDuO]){CNT}(?!-?c?-?[TGXt]|(?<=^Dn)\?m|(?<=[.,&>]Dn)\?m)u?", makers.place),
        (r"(?P<pre>I*)(?P<cnt>cn[-U]n|cn|on-?c|oc|n-n-?c|on)u?", makers.place),
        (r"(?P<pre>[I>]*)(?P<cnt>n-?c)(?=j|[Ij]w|u)u?", makers.place),
        # "all 48 counts, then ..."
        (r"(?P<pre>[AEUDIu]*)a(?P<cnt>n-?c)(?!-?[TGXHtIj])", makers.place),
        (r"oh(?!-?m)", makers.first_half),
        (r"z(?P<cnt>n)[DEQ]?(?=[,.:;&>]|$)", step_makers.bar_done),
        # "when two eights are done"
        (r"z(?P<pre>)(?P<sec>n-?s|on|sn|q)[DEQm]?(?=[.,;:&>]|R|$)", makers.after_sections),
        # "when all eight lines are done"
        (r"[AEUDIuz]*an-?s(?![nx-])", makers.share),
        (r"[AEUDIu]*h(?!-?m)(?:I[a?D]|Iw(?!n))?|[AEDUu]*a(?!m|-?t|[QXR]|\?{0,2}I?(?:n-?c|H))", makers.share),
        (r"[AEIU]?@", makers.here),
        (r"Z[mh?]{1,4}&[mh?]{1,4}(?=[,:)(.>-]|$)", title_makers.between_titles),
        (r"(?:[AB]|U?E(?!HI?n)|D?U)[mH?&h]{1,5}(?=[,:)(RTGwWIj>K]|&R|$)", title_makers.titled),
        # "W2 @ 6:00 16 to the star >", in a map of the walls
        (
            r"(?:(?<=wnf)|(?<=wn\?f)|(?<=wn\(f\)))(?P<pre>[,:]?)(?P<cnt>n)(?=(?:U[mq?]{1,3}|u)?(?:[,>)&.]|$))",
            makers.place,
        ),
        (r"I?(?P<cnt>n-n-?c|n-n|n-?c|n(?!p))", makers.loose),
        (r"Q|E", stop_makers.stop),
        (r"u", makers.only),
    )
]


_NAMED = re.compile(r"[(][?]P<\w+>")
_ANY_OF_THEM = re.compile(
    "|".join(f"(?:{_NAMED.sub('(?:', one.pattern)})(?P<is_{place}>)" for place, (one, _) in enumerate(_PATTERNS))
)
"""All patterns as one expression, each closed by an empty group, whose name says which of them fits first."""


def sentence_of(tokens: Sequence[Token], names: Names) -> Sentence:
    """Return a sentence with the phrases found in it; the same words are asked for by many."""
    return _sentence(tuple(tokens), names)


@lru_cache(maxsize=2048)
def _sentence(tokens: tuple[Token, ...], names: Names) -> Sentence:
    letters = Letters(tokens, lexemes(tokens, names))
    atoms: list[Atom] = []
    at = 0
    while at < len(letters.letters):
        match, made = _first_at(letters, at)
        atoms += made
        at = match.end() if match else at + 1
    return Sentence(letters, tuple(atoms))


def _first_at(letters: Letters, at: int) -> tuple[re.Match[str] | None, list[Atom]]:
    """Return the match at a place of the first pattern that makes something of it, and what it makes."""
    found = _ANY_OF_THEM.match(letters.letters, at)
    if found is None or found.lastgroup is None:
        return None, []
    for pattern, make in _PATTERNS[int(found.lastgroup.removeprefix("is_")) :]:
        match = pattern.match(letters.letters, at)
        made = make(letters, match) if match else None
        if made is not None:
            return match, made
    return None, []
