<#include "/crl/port/pace_timer.ftl">
