<#-- What Templates promises, for its test. -->

#define BYTES ${bytes}    

<#if flag>


/* ${cComment(name)} ${flag} #{bytes} */
</#if>
<#list points as point>
point ${point.x}
</#list>

